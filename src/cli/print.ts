/** Values as the command line prints them. */
import { CellError, type Cell, type Result } from '../sheet';

/** A number without floating-point dust: at most 15 significant digits, as a spreadsheet shows it. */
export const shownNumber = (value: number): number => Number(value.toPrecision(15));

function printCell(cell: Cell): string {
  if (typeof cell === 'number') return String(shownNumber(cell));
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (cell === null) return '';
  if (cell instanceof CellError) return cell.code;
  return cell;
}

/** A spilled result as rows of cells with tabs between; tabs and line breaks inside a text become spaces. */
export function printResult(result: Result): string {
  if (!Array.isArray(result)) return printCell(result);
  return result.map((row) => row.map((cell) => printCell(cell).replace(/[\t\r\n]+/g, ' ')).join('\t')).join('\n');
}
