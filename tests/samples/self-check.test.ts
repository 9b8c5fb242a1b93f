/** self-check.xlsx: holds every example, claims nothing before it is calculated, and sees a wrong value. */
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { recalculate } from '../../src/calculation';
import { catalogue, exampleFormula, excelName } from '../../src/functions';
import { CellError, type Cell, type CellModel, type WorkbookModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { computed } from '../../tools/samples/compute';
import { selfCheck, withoutResults } from '../../tools/samples/self-check';
import { tarebook } from '../cli/tarebook';
import { recalculatedByLibreOffice } from '../helpers/libreoffice';
import { soffice } from '../helpers/programs';

const FILE = fileURLToPath(new URL('../../sample-workbooks/self-check.xlsx', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'tarebook-self-check-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = readWorkbook(readFileSync(FILE));
const verdict = ({ sheets }: WorkbookModel): Cell | undefined => sheets[0]!.cells[2]![1]!.value;
const cellsOf = ({ sheets }: WorkbookModel): CellModel[] =>
  sheets.flatMap(({ cells }) => cells.flatMap((row) => row.flatMap((cell) => cell ?? [])));

it('has every example of every function by the name that Excel takes, each with a verdict', () => {
  const formulas = new Set(cellsOf(file).flatMap(({ formula }) => formula ?? []));
  const examples = catalogue
    .filter(({ name }) => excelName(name) === name)
    .flatMap((definition) => definition.examples.map((example) => exampleFormula(definition, example).slice(1)));
  expect(examples.filter((formula) => !formulas.has(formula))).toEqual([]);
  const verdicts = [...formulas].filter((formula) => formula.endsWith('"pass","not")'));
  expect(String(file.sheets[0]!.cells[2]![1]!.formula)).toContain(`All ${verdicts.length} checks pass`);
});

it('is the one that the functions make today', async () => {
  const today = withoutResults(await computed('self-check', selfCheck().model()));
  expect(file.sheets).toEqual(readWorkbook(await writeWorkbook(today)).sheets);
});

it('holds no result of ours: what passes is said by the program that opens it', () => {
  expect(verdict(file)).toBe('Not calculated yet. Allow editing, then press Ctrl+Alt+F9.');
  const results = cellsOf(file).filter(({ formula, value }) => formula !== undefined && value !== null && value !== '');
  expect(results).toHaveLength(1);
});

it('passes in the command, which calculates it', async () => {
  const [before, after] = [join(folder, 'before.xlsx'), join(folder, 'after.xlsx')];
  copyFileSync(FILE, before);
  // Done, with cells in error: what must be refused is.
  expect(await tarebook('recalc', before, '-o', after)).toMatchObject({ code: 1 });
  expect(verdict(readWorkbook(readFileSync(after)))).toMatch(/^All \d{3} checks pass$/);
});

/** A copy with other cells. */
const changed = (model: WorkbookModel, change: (cell: CellModel, sheet: string) => CellModel): WorkbookModel => ({
  ...model,
  sheets: model.sheets.map((sheet) => ({
    ...sheet,
    cells: Array.from(sheet.cells, (row) => (row ?? []).map((cell) => cell && change(cell, sheet.name))),
  })),
});

it('sees a function that gives something else, and names the first', () => {
  const wrong = changed(file, (cell) =>
    cell.formula === 'TARE.AREA.CIRCLE(2)'
      ? { ...cell, formula: 'TARE.AREA.CIRCLE(2.0001)' }
      : cell.formula?.startsWith('TARE.STATIONS(')
        ? { value: null, formula: '1/0' }
        : cell,
  );
  const { model } = recalculate(wrong);
  expect(verdict(model)).toMatch(/^\d{3} of \d{3} checks pass, [2-9] do not$/);
  expect(model.sheets[0]!.cells[11]![3]!.value).toBe('=TARE.AREA.CIRCLE(2)');
});

it('says that the functions are not there where every one of them is #NAME?', () => {
  const absent = changed(file, (cell) =>
    cell.formula?.startsWith('TARE.') ? { value: new CellError('#NAME?') } : cell,
  );
  expect(verdict(recalculate(absent).model)).toMatch(
    /^None of \d{3} checks passes: the TARE functions are not loaded here$/,
  );
});

const office = soffice();

/** The counting is ordinary spreadsheet work: another program must come to the same, given the functions' results. */
it.skipIf(!office)('counts in LibreOffice as it does here', { timeout: 180_000 }, async () => {
  const { model } = recalculate(file);
  const plain = changed(model, ({ spill: _spill, spilled: _spilled, ...cell }) => {
    const { formula, ...rest } = cell;
    return formula?.startsWith('TARE.') ? { ...rest, value: cell.value === '' ? null : cell.value } : cell;
  });
  const theirs = readWorkbook(recalculatedByLibreOffice(office!, await writeWorkbook(plain)));
  expect(verdict(theirs)).toBe(verdict(model));
});
