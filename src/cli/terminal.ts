/** How a command speaks to whoever called it: what it prints, and the code with which it ends. */
import { CellError, type Cell, type Result } from '../sheet';

/**
 * Text of a workbook as it goes to a terminal: without the control characters with which it could move the cursor,
 * recolour or retitle the window. Tabs and line breaks stay.
 */
export const shown = (text: string): string => text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g, '');

/** A number without floating-point dust: at most 15 significant digits, as a spreadsheet shows it. */
export const shownNumber = (value: number): number => Number(value.toPrecision(15));

function printCell(cell: Cell): string {
  if (typeof cell === 'number') return String(shownNumber(cell));
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return cell instanceof CellError ? cell.code : (cell ?? '');
}

/** A spilled result as rows of cells with tabs between; tabs and line breaks inside a text become spaces. */
export const printResult = (result: Result): string =>
  Array.isArray(result)
    ? result.map((row) => row.map((cell) => printCell(cell).replace(/[\t\r\n]+/g, ' ')).join('\t')).join('\n')
    : printCell(result);

/** How a command ends. */
export const EXIT = {
  done: 0,
  /** The work was done and its outcome is bad: an error value, cells in error. */
  findings: 1,
  /** A wrong command line, or a file that cannot be read or written: nothing was done. */
  refused: 2,
} as const;

/** Thrown to end a command with a line on stderr. */
export class Stop extends Error {
  constructor(
    readonly code: number,
    message: string,
  ) {
    super(message);
  }
}

const PATIENCE_MS = 2000;

/** A line on stderr that says how far long work is: at once on a terminal, else only once it takes long. */
export class Progress {
  private readonly started = Date.now();
  private shown = 0;
  private width = 0;

  constructor(private readonly stream: NodeJS.WriteStream = process.stderr) {}

  say(text: string): void {
    const now = Date.now();
    if (this.stream.isTTY) {
      this.stream.write(`\r${text.padEnd(this.width)}`);
      this.width = text.length;
    } else if (now - this.started >= PATIENCE_MS && now - this.shown >= PATIENCE_MS) {
      this.stream.write(`${text}\n`);
      this.shown = now;
    }
  }

  /** Takes the line away. */
  done(): void {
    if (this.stream.isTTY && this.width) this.stream.write(`\r${' '.repeat(this.width)}\r`);
    this.width = 0;
  }
}
