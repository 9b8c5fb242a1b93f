/** The two shapes of a sheet of checks: a list with one value a row, and blocks that spill. */
import { CellError, columnName, type Cell, type ErrorCode, type Matrix } from '../../src/sheet';
import type { BookBuilder, Content, SheetBuilder } from './book';
import { f } from './book';

/** A formula ("=…") and the one value that it must give. */
export interface Check {
  readonly name: string;
  readonly formula: string;
  readonly wanted: Cell;
  readonly within: number;
}

/** A formula that spills, over cells of its own where it has inputs. */
export interface Block {
  readonly name: string;
  /** Cells that stand beside the formula, by row. */
  readonly inputs: readonly (readonly Content[])[];
  /** The formula ("=…") for the addresses of the inputs' columns. */
  readonly formula: (addresses: readonly string[]) => string;
  readonly wanted: Matrix;
  /** What a row may hold instead. */
  readonly orElse?: Matrix;
  readonly within: (wanted: number) => number;
}

/** Where a sheet's verdicts and formulas are, for the front sheet. */
export interface Counted {
  readonly sheet: string;
  readonly count: number;
  readonly passes: string;
  readonly formulas: string;
}

const FIRST = 5;

/** Numbers of ERROR.TYPE. Source: Microsoft, "ERROR.TYPE function". */
const ERROR_TYPES: Partial<Record<ErrorCode, number>> = {
  '#NULL!': 1,
  '#DIV/0!': 2,
  '#VALUE!': 3,
  '#REF!': 4,
  '#NAME?': 5,
  '#NUM!': 6,
  '#N/A': 7,
};

/** One value a row: function, verdict, formula as text, what it gives, what it must give. */
export function listChecks(book: BookBuilder, name: string, title: string, checks: readonly Check[]): Counted {
  const sheet = book.sheet(name);
  head(sheet, title, ['Function', 'Verdict', 'Formula', 'Gives', 'Must give']);
  checks.forEach(({ name: of, formula, wanted, within }, index) => {
    const row = FIRST + index;
    sheet.row(`A${row}`, [of, verdict([same(`D${row}`, `E${row}`, wanted, within)]), formula]);
    sheet.put(`D${row}`, f(formula.slice(1))).put(`E${row}`, shown(wanted));
  });
  sheet.widths = [20, 10, 60, 24, 24];
  const last = FIRST + checks.length - 1;
  return { sheet: name, count: checks.length, passes: `B${FIRST}:B${last}`, formulas: `C${FIRST}:C${last}` };
}

/** Blocks one below the other: function, verdict of each row, formula as text, inputs, results, what they must be. */
export function spillChecks(book: BookBuilder, name: string, title: string, blocks: readonly Block[]): Counted {
  const sheet = book.sheet(name);
  const inputs = Math.max(...blocks.map((block) => block.inputs[0]?.length ?? 0));
  const width = Math.max(...blocks.map(({ wanted }) => wanted[0]!.length));
  const results = 3 + inputs + (inputs > 0 ? 1 : 0);
  const expected = results + width + 1;
  const labels = ['Function', 'Verdict', 'Formula'];
  if (inputs > 0) labels[3] = 'Cells';
  labels[results] = 'Gives';
  labels[expected] = 'Must give';
  head(
    sheet,
    title,
    Array.from({ length: expected + width }, (_none, at) => labels[at] ?? null),
  );
  let row = FIRST;
  for (const block of blocks) {
    const bottom = row + block.wanted.length - 1;
    block.inputs.forEach((cells, r) => sheet.row(`D${row + r}`, cells));
    const addresses = (block.inputs[0] ?? []).map((_none, c) => {
      const column = columnName(3 + c);
      return `${column}${row}:${column}${bottom}`;
    });
    const formula = block.formula(addresses);
    sheet.put(`${columnName(results)}${row}`, f(formula.slice(1)));
    block.wanted.forEach((cells, r) => {
      const at = row + r;
      const terms = cells.map((wanted, c) => {
        const [got, want] = [`${columnName(results + c)}${at}`, `${columnName(expected + c)}${at}`];
        const within = typeof wanted === 'number' ? block.within(wanted) : 0;
        const other = block.orElse?.[r]?.[c];
        const term = same(got, want, wanted, within);
        return other === undefined || other === wanted ? term : `OR(${term},${literally(got, other)})`;
      });
      // Where the formula itself is in error nothing spills, and a row that must be blank is so for the wrong reason.
      if (r > 0) terms.unshift(`NOT(ISERROR(${columnName(results)}${row}))`);
      sheet.row(`A${at}`, [block.name, verdict(terms), formula]);
      sheet.row(`${columnName(expected)}${at}`, cells.map(shown));
    });
    row = bottom + 2;
  }
  sheet.widths = [20, 10, 60];
  const count = blocks.reduce((sum, { wanted }) => sum + wanted.length, 0);
  return { sheet: name, count, passes: `B${FIRST}:B${row}`, formulas: `C${FIRST}:C${row}` };
}

function head(sheet: SheetBuilder, title: string, labels: readonly (string | null)[]): void {
  sheet.put('A1', sheet.name, 'title').put('A2', title, 'note');
  sheet.row(`A${FIRST - 1}`, labels, 'header');
  sheet.frozen = { rows: FIRST - 1, columns: 0 };
}

const verdict = (terms: readonly string[]): Content => f(`IF(AND(${terms.join(',')}),"pass","not")`);

/** A formula's term that is TRUE where a cell shows what it must. */
function same(got: string, want: string, wanted: Cell, within: number): string {
  if (typeof wanted === 'number') return `IF(ISNUMBER(${got}),ABS(${got}-${want})<=${within},FALSE)`;
  if (typeof wanted === 'string' && wanted !== '') return `IF(ISTEXT(${got}),EXACT(${got},${want}),FALSE)`;
  return literally(got, wanted);
}

function literally(got: string, wanted: Cell): string {
  if (typeof wanted === 'number') return `IF(ISNUMBER(${got}),${got}=${wanted},FALSE)`;
  if (typeof wanted === 'boolean') return `IF(ISLOGICAL(${got}),${got}=${wanted ? 'TRUE' : 'FALSE'},FALSE)`;
  if (wanted instanceof CellError) return `IF(ISERROR(${got}),ERROR.TYPE(${got})=${ERROR_TYPES[wanted.code]!},FALSE)`;
  return `IF(ISERROR(${got}),FALSE,${got}="")`;
}

/** What stands under "Must give": an error as its name, nothing as the word for it. */
const shown = (wanted: Cell): Cell =>
  wanted instanceof CellError ? wanted.code : wanted === null || wanted === '' ? '(blank)' : wanted;
