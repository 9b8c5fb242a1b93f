/** The cases computed by LibreOffice, which shares no code with the calculator. */
import { describe, expect, it } from 'vitest';
import { CellError, type Cell } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { functionNames } from '../../src/sheet/formula';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';
import { cases, placeOf, resultOf, workbookOf } from './cases';

/** Not in LibreOffice 7.4, or ours. */
const UNKNOWN =
  /^(?:TARE\..*|XLOOKUP|XMATCH|SEQUENCE|UNIQUE|SORT|SORTBY|FILTER|VSTACK|HSTACK|TAKE|DROP|CHOOSECOLS|CHOOSEROWS)$/;

/** Formulas on which LibreOffice goes its own way, and how. */
const DIFFERS: ReadonlyMap<string, string> = new Map([
  ['0^0', 'it gives 1'],
  // Excel's values: github.com/borgar/numfmt, issue 1.
  ['TEXT(-0.01,"0.0;@")', 'what rounds to nothing has no minus'],
  ['TEXT(-0.01,"0 #/#")', 'a fraction that rounds to nothing has no minus'],
  // ($0.00) is Excel's: github.com/ironcalc/IronCalc, pull request 1293.
  ['DOLLAR(-0.004,2)', 'what rounds to nothing has no parentheses'],
  ['SUM(A1:B3,"5",TRUE)', 'it takes no text for a number'],
  ['COUNT(A1:E5)', 'a flag is a number'],
  ['CONCATENATE("a",1,TRUE)', 'a flag is a number'],
  ['Sizes[#Headers]', 'it reads parts of tables from files by another spelling'],
  ['COUNTA(Sizes)', 'it counts the header'],
  ['COUNTA(Sizes[#All])', 'it reads parts of tables from files by another spelling'],
]);

const office = soffice();
const shared = cases.filter(
  ({ formula }) => !DIFFERS.has(formula) && !functionNames(formula).some((name) => UNKNOWN.test(name)),
);

/** LibreOffice's flags are numbers, and it has one error for most that cannot be computed. */
function plain(cell: Cell): unknown {
  if (cell instanceof CellError) return cell.code === '#N/A' || cell.code === '#NAME?' ? cell.code : 'an error';
  return typeof cell === 'string' ? cell : Number(Number(cell ?? 0).toPrecision(12));
}

describe.skipIf(!office)('LibreOffice', async () => {
  const model = workbookOf(shared.map(({ formula }) => formula));
  const sheet = model.sheets[0]!;
  // Written with the extent that the case has, for LibreOffice does not spill by itself.
  const cells = sheet.cells.map((line) => [...line]);
  shared.forEach(({ gives }, index) => {
    const { row, column } = placeOf(index);
    const extent = Array.isArray(gives) ? { rows: gives.length, columns: gives[0]!.length } : { rows: 1, columns: 1 };
    cells[row]![column] = { ...cells[row]![column]!, spill: { ...extent, fixed: true } };
  });
  const theirs = office
    ? readWorkbook(recalculatedByLibreOffice(office, await writeWorkbook({ ...model, sheets: [{ ...sheet, cells }] })))
    : model;

  it.each(shared.map((one, index) => ({ ...one, index })))('agrees on $formula', ({ gives, index }) => {
    const result = resultOf(theirs, index);
    const flat = (value: typeof result): unknown =>
      Array.isArray(value) ? value.map((row) => row.map(plain)) : plain(value);
    expect(flat(result)).toEqual(flat(gives));
  });
});
