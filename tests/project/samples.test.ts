/** The sample workbooks as they lie in the repository: what their cells say and what the models make of them agree. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judgementWords } from '../../src/core/balance';
import { CellError } from '../../src/sheet';
import { balanceModels, logOf, projectSheetsOf, STATUSES, summarise, weightsModel } from '../../src/project';
import { type WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';

const open = (name: string): WorkbookModel =>
  readWorkbook(new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${name}`, import.meta.url))));
const cellAt = (model: WorkbookModel, sheet: string, row: number, column: number): unknown =>
  model.sheets.find(({ name }) => name === sheet)!.cells[row]?.[column]?.value;

for (const name of ['budget.xlsx', 'weighing.xlsx']) {
  it(`${name} has no cell in error`, () => {
    const wrong = open(name).sheets.flatMap(({ name: sheet, cells }) =>
      cells.flatMap((row, r) =>
        (row ?? []).flatMap((cell, c) =>
          cell?.value instanceof CellError ? [`${sheet} ${r} ${c} ${cell.value.toString()}`] : [],
        ),
      ),
    );
    expect(wrong).toEqual([]);
  });
}

describe('budget.xlsx', () => {
  const book = open('budget.xlsx');
  const { values } = projectSheetsOf(book);
  const model = weightsModel(values)!;

  it('has parts of every status, allowances of its own and a log of ten dates', () => {
    expect(new Set(model.parts.rows.map(({ status }) => status))).toEqual(new Set(STATUSES));
    expect(model.allowances.own).toBe(true);
    expect(logOf(model.log!.entries)).toHaveLength(10);
    expect(model.problems).toEqual([]);
    expect(summarise(values)!.problems).toEqual([]);
  });

  it('says in its budget’s cells what the model says', () => {
    [...model.components, model.total].forEach(
      ({ name, current, forecast, budget, margin, marginPercent, weighedPercent }, index) => {
        const row = Array.from({ length: 7 }, (_, column) => cellAt(book, 'Budget', 5 + index, 3 + column));
        expect(row).toEqual([
          name,
          ...[current, forecast, budget!, margin!, marginPercent!, weighedPercent!].map((value) =>
            expect.closeTo(value, 6),
          ),
        ]);
      },
    );
    expect(model.components.filter(({ margin }) => margin! < 0).map(({ name }) => name)).toEqual([
      'Nose skin',
      'Fittings',
    ]);
  });

  it('says of the scale what the model says', () => {
    const row = Array.from({ length: 5 }, (_, column) => cellAt(book, 'Budget', 19, 3 + column));
    const { parts, computed, weighed, fraction, plusMinus } = model.bias!;
    expect(row).toEqual(
      [parts, computed, weighed, 100 * fraction, 100 * plusMinus!].map((value) => expect.closeTo(value, 3)),
    );
    expect(model.biasCertain).toBe(true);
  });
});

describe('weighing.xlsx', () => {
  const book = open('weighing.xlsx');
  const { names, values } = projectSheetsOf(book);
  const models = balanceModels(values, names);

  it('holds a tailwheel and a nosewheel airplane with six cases each, some outside', () => {
    expect(
      models.map(({ sheets, weighing, judged, problems }) => [
        sheets.name,
        weighing!.record.gear,
        judged!.cases.length,
        problems,
      ]),
    ).toEqual([
      ['tailwheel', 'tailwheel', 6, []],
      ['nosewheel', 'nosewheel', 6, []],
    ]);
    expect(models.map(({ judged }) => judged!.cases.map(({ result }) => result.inside))).toEqual([
      [true, true, true, true, false, false],
      [true, true, true, true, false, false],
    ]);
  });

  it('says in its cells what the models say', () => {
    for (const { sheets, judged, stations } of models) {
      judged!.cases.forEach(({ row, result: { takeoff, landing } }) => {
        const at = stations.length + 1;
        const cells = Array.from({ length: 6 }, (_, column) => cellAt(book, sheets.cases!, row!, at + column));
        expect(cells).toEqual(
          [takeoff, landing].flatMap(({ weight, arm, judgement }) => [
            expect.closeTo(weight, 6),
            expect.closeTo(arm, 6),
            judgementWords(judgement),
          ]),
        );
      });
    }
  });
});
