/** What the view has read of the workbook, sheet by sheet, with what was typed in the pane shown over it at once. */
import { type CellInput, type Edit, type RangeAddress, type Workbook } from '../../../sheet';
import {
  BUYING_SHEET,
  JOINTS,
  MATCHES,
  matchedSheets,
  PARTS,
  projectSheetNames,
  readTop,
  SURFACES,
  type SheetValues,
} from '../../../project';
import type { Cell } from '../../../sheet';

interface ReadSheet {
  readonly values: readonly (readonly Cell[])[];
  /** Only where cells can be typed in: null where a cell holds none. */
  readonly formulas: readonly (readonly (string | null)[])[];
}

export interface Sheets {
  readonly names: readonly string[];
  readonly values: SheetValues;
  /** The formula in a cell; undefined where it holds none. */
  formula(sheet: string, row: number, column: number): string | undefined;
}

export const NO_SHEETS: Sheets = { names: [], values: () => undefined, formula: () => undefined };

const NOT_SHOWN: ReadonlySet<string> = new Set(['budget', 'log', 'allowances', 'hardware', 'rivets']);
/** Only their labels count here: they have a say in the units that the workbook is in. */
const LABELS_ONLY: ReadonlySet<string> = new Set([JOINTS.sheet.toLowerCase(), BUYING_SHEET.toLowerCase()]);

const MATCH_KEY = MATCHES.sheet.toLowerCase();

export class SheetCache {
  private readonly sheets = new Map<string, ReadSheet>();
  private readonly stale = new Set<string>();
  private names: readonly string[] = [];

  constructor(private readonly workbook: Workbook) {}

  /** Marks sheets as changed; they are read again by the next `read`. */
  touch(names: readonly string[]): void {
    for (const name of names) this.stale.add(name.toLowerCase());
  }

  /** True where a change of these sheets can change what the view shows. */
  concerns(names: readonly string[]): boolean {
    const touched = new Set(names.map((name) => name.toLowerCase()));
    // A name that is not known yet is a sheet that was just added.
    return this.wanted([...new Set([...this.names, ...names])]).some((name) => touched.has(name.toLowerCase()));
  }

  private wanted(names: readonly string[]): string[] {
    const known = new Set(projectSheetNames(names).filter((name) => !NOT_SHOWN.has(name.toLowerCase())));
    const lists = this.lists(names);
    return names.filter(
      (name) =>
        known.has(name) ||
        lists.has(name) ||
        name.toLowerCase() === SURFACES.sheet.toLowerCase() ||
        LABELS_ONLY.has(name.toLowerCase()),
    );
  }

  /** Lists that the sheet Matches names, as it was read last. */
  private lists(names: readonly string[]): ReadonlySet<string> {
    return new Set(matchedSheets(names, this.sheets.get(MATCH_KEY)?.values));
  }

  async read(): Promise<Sheets> {
    this.names = (await this.workbook.sheets()).map(({ name }) => name);
    const matches = this.names.find((name) => name.toLowerCase() === MATCH_KEY);
    if (matches === undefined) this.sheets.delete(MATCH_KEY);
    else if (!this.sheets.has(MATCH_KEY) || this.stale.delete(MATCH_KEY))
      this.sheets.set(MATCH_KEY, await this.readSheet(matches));
    const wanted = this.wanted(this.names);
    const kept = new Set(wanted.map((name) => name.toLowerCase()));
    for (const key of this.sheets.keys()) if (!kept.has(key)) this.sheets.delete(key);
    for (const name of wanted) {
      const key = name.toLowerCase();
      if (this.sheets.has(key) && !this.stale.has(key)) continue;
      this.stale.delete(key);
      this.sheets.set(key, await this.readSheet(name));
    }
    return this.snapshot();
  }

  private async readSheet(name: string): Promise<ReadSheet> {
    if (LABELS_ONLY.has(name.toLowerCase()))
      return { values: (await readTop(this.workbook, name)) ?? [], formulas: [] };
    const used = await this.workbook.usedRange(name);
    if (!used) return { values: [], formulas: [] };
    // Nobody types into the parts list here, and it may be long.
    const typed = name.toLowerCase() !== PARTS.sheet.toLowerCase() && !this.lists([name]).has(name);
    const [values, formulas] = await Promise.all([
      this.workbook.read(used),
      typed ? this.workbook.readFormulas(used) : [],
    ]);
    return { values, formulas };
  }

  /** What was read, with edits laid over it, before the workbook has made them. */
  show(edits: readonly Edit[]): Sheets {
    for (const edit of edits) if (edit.kind === 'write') this.lay(edit.range, edit.cells);
    return this.snapshot();
  }

  private lay({ sheet, row, column }: RangeAddress, cells: readonly (readonly CellInput[])[]): void {
    const read = this.sheets.get(sheet.toLowerCase());
    if (!read) return;
    const values = read.values.map((line) => [...line]);
    cells.forEach((line, r) =>
      line.forEach((input, c) => {
        // What a formula will give is for the workbook to say.
        if (typeof input === 'object' && input !== null && 'formula' in input) return;
        while (values.length <= row + r) values.push([]);
        const target = values[row + r]!;
        while (target.length <= column + c) target.push(null);
        target[column + c] = input;
      }),
    );
    this.sheets.set(sheet.toLowerCase(), { ...read, values });
  }

  private snapshot(): Sheets {
    const sheets = new Map(this.sheets);
    return {
      names: this.names,
      values: (sheet) => sheets.get(sheet.toLowerCase())?.values,
      formula: (sheet, row, column) => sheets.get(sheet.toLowerCase())?.formulas[row]?.[column] ?? undefined,
    };
  }
}
