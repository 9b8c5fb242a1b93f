/** A total that rests on a formula which was not calculated says so: as text, as JSON and on the page. */
import { describe, expect, it } from 'vitest';
import { recalculate } from '../../src/calculation';
import { reportJson, reportText } from '../../src/cli/report-text';
import { reportPage } from '../../src/cli/report-html';
import { PARTS, projectSheetsOf, restingOn, summarise } from '../../src/project';
import type { CellModel, WorkbookModel } from '../../src/sheet';

const header = PARTS.columns.map(({ label }): CellModel => ({ value: label }));
const weight = PARTS.columns.findIndex(({ key }) => key === 'weight');
const component = PARTS.columns.findIndex(({ key }) => key === 'component');
const row = (name: string, cell: CellModel): (CellModel | undefined)[] => {
  const cells: (CellModel | undefined)[] = [];
  cells[component] = { value: name };
  cells[weight] = cell;
  return cells;
};

describe('the report', () => {
  it('marks the components and the total that rest on kept values', () => {
    const model: WorkbookModel = {
      styles: [],
      names: [],
      sheets: [
        {
          name: 'Parts',
          tables: [],
          cells: [header, row('Wing', { value: 2, formula: 'Factors!A1*2' }), row('Tail', { value: 3 })],
        },
        { name: 'Factors', tables: [], cells: [[{ value: 1.5, formula: 'NOSUCH.FN(1)' }]] },
      ],
    };
    const { model: current, notRecalculated } = recalculate(model);
    const { values, names, units } = projectSheetsOf(current);
    const summary = summarise(values, units)!;
    const resting = restingOn(values, notRecalculated, names);
    const text = reportText('Book', summary, resting);
    expect(text).toMatch(/^Wing \(not recalculated\) /m);
    expect(text).toMatch(/^Tail {2}/m);
    expect(text).toMatch(/^Total \(not recalculated\) /m);
    expect(text).toMatch(/Parts!\w+2 rests on Factors!A1, which keeps the file's value/);
    const json = JSON.parse(reportJson('Book', summary, resting)) as {
      components: { name: string; notRecalculated?: boolean }[];
      total: { notRecalculated?: boolean };
    };
    expect(json.components.map(({ name, notRecalculated: marked }) => [name, marked])).toEqual([
      ['Wing', true],
      ['Tail', undefined],
    ]);
    expect(json.total.notRecalculated).toBe(true);
    const html = reportPage('Book', current, '2026-11-20', notRecalculated)!;
    expect(html).toContain('The figures of Wing and the totals rest on formulas that could not be recalculated.');
    expect(reportPage('Book', current, '2026-11-20')).not.toContain('Not recalculated');
  });
});
