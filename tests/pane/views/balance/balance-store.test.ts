import { describe, expect, it, vi } from 'vitest';
import { balanceSheets, BalanceStore } from '../../../../src/pane/views/balance/balance-store';
import { exampleSheets } from '../../../../src/pane/views/balance/new-sheets';
import { rebuiltCases } from '../../../../src/pane/views/balance/edits';
import { WorkbookError, type Edit, type WorkbookModel } from '../../../../src/sheet';
import { newCasesSheet, ProjectReader, projectSheetsOf } from '../../../../src/project';
import { cellsWorkbook } from '../../../helpers/project';
import { airplanes, nothing } from './models';
import { openPane, started } from '../../open-pane';

async function open(model: WorkbookModel) {
  const { workbook, settings, pane, type, settle } = await openPane(model);
  const store = await started(new BalanceStore(pane));
  return { workbook, store, settings, type, settle };
}
/** The engine recalculates first, on a machine that may be busy. */
const LOADING = 'Loading tailwheel';
/** Row of the first cell in column A that holds this. */
const rowOf = (sheet: string, first: string | number): number =>
  airplanes()
    .sheets.find(({ name }) => name === sheet)!
    .cells.findIndex((row) => row?.[0]?.value === first);
const PASSENGER = rowOf(LOADING, 'Passenger');
const takeoff = (store: BalanceStore): number => store.model!.judged!.now!.result.takeoff.weight;

describe('an edit in the pane', () => {
  it('is judged at once, before the sheet has it, and is one step of undo in the sheet', async () => {
    const { store, workbook } = await open(airplanes());
    expect(takeoff(store)).toBeCloseTo(1078.8, 9);
    // How long that takes is measured by `npm run benchmarks -- balance`.
    for (let index = 0; index < 9; index++) {
      void store.writeCell('Change load', { sheet: LOADING, row: PASSENGER, column: 2 }, 150 + index);
      expect(takeoff(store)).toBeCloseTo(1078.8 + 150 + index, 9);
    }
    await store.writeCell('Change load', { sheet: LOADING, row: PASSENGER, column: 2 }, 145);
    expect((await workbook.read({ sheet: LOADING, row: PASSENGER, column: 2, rows: 1, columns: 1 }))[0]![0]).toBe(145);
    await store.undo();
    expect(takeoff(store)).toBeCloseTo(1078.8 + 158, 9);
  });

  it('that is refused leaves the sheet’s own figures on the screen, with the reason', async () => {
    const { store, workbook } = await open(airplanes());
    vi.spyOn(workbook, 'apply').mockRejectedValueOnce(new WorkbookError('protected', 'The sheet is protected'));
    const wrong = await store.writeCell('Change load', { sheet: LOADING, row: PASSENGER, column: 2 }, 145);
    expect(wrong).toBe('The sheet is protected. Unprotect the sheet, then try again.');
    expect(takeoff(store)).toBeCloseTo(1078.8, 9);
    expect(store.state.message).toEqual({ tone: 'failed', text: wrong });
  });
});

describe('an edit in the sheet', () => {
  it('is judged in the pane: loads, arms, readings and corners', async () => {
    const { store, type } = await open(airplanes());
    type(LOADING, PASSENGER, 2, 100);
    await expect.poll(() => takeoff(store)).toBeCloseTo(1178.8, 9);
    type('Weighing tailwheel', rowOf('Weighing tailwheel', 'Left main wheel'), 1, 384.5);
    await expect.poll(() => takeoff(store)).toBeCloseTo(1188.8, 9);
    const corner = rowOf('Envelope tailwheel', 66.5);
    type('Envelope tailwheel', corner + 2, 1, 1180);
    type('Envelope tailwheel', corner + 3, 1, 1180);
    await expect.poll(() => store.model!.judged!.now!.words.takeoff).toContain('8.8 lb over the highest weight');
  });

  it('elsewhere is not read', async () => {
    const { store, workbook, type } = await open(airplanes());
    const read = vi.spyOn(workbook, 'read');
    type('About', 30, 0, 'mine');
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(read).not.toHaveBeenCalled();
    expect(store.state.status).toBe('ready');
  });

  it('of one sheet has that sheet read and no other', async () => {
    const { names, values } = projectSheetsOf(airplanes());
    const sheets = Object.fromEntries(names.map((name) => [name, [...values(name)!].map((line) => [...line])]));
    const { workbook, asked, change } = cellsWorkbook(sheets);
    const reader = ProjectReader.over(workbook);
    await reader.read(balanceSheets);
    // All of the sample's sheets but the text of its first, About.
    expect([...asked].sort()).toEqual(names.filter((name) => name !== 'About').sort());
    asked.length = 0;
    change('Envelope nosewheel');
    expect(reader.concerns(balanceSheets, ['Envelope nosewheel'])).toBe(true);
    expect(reader.concerns(balanceSheets, ['About'])).toBe(false);
    await reader.read(balanceSheets);
    expect(asked).toEqual(['Envelope nosewheel']);
  });
});

describe('a station that is added', () => {
  it('gets its column among the cases, whose results on the sheet are those of the pane', async () => {
    const { store, workbook, settle } = await open(airplanes());
    const { form } = store.model!.loading!;
    const row = store.model!.stations.at(-1)!.row + 1;
    const station = [
      ['station', 'Wing locker'],
      ['arm', 90],
      ['min', 0],
      ['max', 40],
    ] as const;
    await store.change(
      'Add station',
      station.map(([key, cell]) => ({
        kind: 'write',
        range: { sheet: LOADING, row, column: form.columns[key]!, rows: 1, columns: 1 },
        cells: [[cell]],
      })),
    );
    const before = store.model!.judged!.cases;
    expect(store.model!.problems.map(({ message }) => message)).toContain(
      'has no column for the station "Wing locker": it counts as empty',
    );
    await settle();
    const edits = rebuiltCases(store.model!, store.model!.casesSheet!, store.state.sheets);
    expect(typeof edits).not.toBe('string');
    await store.change('Add the columns', edits as readonly Edit[]);
    await settle();
    const { casesSheet, judged, problems } = store.model!;
    expect(problems).toEqual([]);
    expect(judged!.cases.map(({ name, result }) => [name, result.takeoff.weight])).toEqual(
      before.map(({ name, result }) => [name, expect.closeTo(result.takeoff.weight, 9)]),
    );
    // The formulas are those of a sheet made for these stations, and look at each station's own row.
    const formulas = (
      await workbook.readFormulas({
        sheet: casesSheet!.form.sheet,
        row: casesSheet!.form.header + 1,
        column: 0,
        rows: 1,
        columns: casesSheet!.form.columns.landingVerdict! + 1,
      })
    )[0]!;
    const made = newCasesSheet({ name: 'tailwheel', stations: store.model!.stations }).flatMap((edit) =>
      edit.kind === 'write' ? (edit.cells[casesSheet!.form.header + 1] ?? []) : [],
    );
    expect(formulas).toEqual(
      made
        .slice(0, formulas.length)
        .map((input) => (typeof input === 'object' && input !== null && 'formula' in input ? input.formula : null)),
    );
    expect(formulas[casesSheet!.form.columns.takeoffArm!]).toContain(`G6:G25*'Loading tailwheel'!$B$${row + 1}`);
    expect(casesSheet!.stationColumns.at(-1)).toBe(6);
  });

  it('is left to the hand where the stations have a gap', async () => {
    const { store } = await open(airplanes());
    const model = { ...store.model!, stations: store.model!.stations.filter((_, index) => index !== 1) };
    expect(rebuiltCases(model, model.casesSheet!, store.state.sheets)).toContain(
      'The stations are not in rows one below the other',
    );
  });
});

describe('a workbook without an airplane', () => {
  it.each(['tailwheel', 'nosewheel'] as const)(
    'is given a %s one as one step, judged inside and without a cell to mend',
    async (gear) => {
      const { store, workbook } = await open(nothing);
      expect(store.state.models).toEqual([]);
      const { edits, added } = await exampleSheets(workbook, '', gear, 'in-lb');
      expect(await store.change('Add an airplane', edits)).toBeUndefined();
      expect(added).toContain('Weighing, Loading, Envelope and Cases');
      const model = store.model!;
      expect(model.problems).toEqual([]);
      expect(model.weighing!.record.gear).toBe(gear);
      expect(model.judged!.now!.result.inside).toBe(true);
      expect(model.judged!.cases).toHaveLength(1);
      expect(model.envelopeSheet!.limitsFrom).toBe('invented example, put your own');
      await store.undo();
      expect((await workbook.sheets()).map(({ name }) => name)).toEqual(['Sheet1']);
      expect(store.state.models).toEqual([]);
    },
  );

  it('is told which name is taken', async () => {
    const { workbook } = await open({
      ...nothing,
      sheets: [{ name: 'Loading', cells: [[{ value: 'lorries' }]], tables: [] }],
    });
    await expect(exampleSheets(workbook, '', 'tailwheel', 'in-lb')).rejects.toThrow(
      'The sheet Loading already holds something else',
    );
    expect((await exampleSheets(workbook, 'wren', 'tailwheel', 'in-lb')).added).toContain('Loading wren');
  });
});
