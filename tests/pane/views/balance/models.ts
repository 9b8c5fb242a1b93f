/** Workbooks with airplanes and control surfaces, invented. */
import { readFileSync } from 'node:fs';
import type { Cell } from '../../../../src/sheet';
import { PARTS, SURFACES } from '../../../../src/project';
import { readWorkbook } from '../../../../src/xlsx';
import { type CellModel, type SheetModel, type WorkbookModel } from '../../../../src/sheet';
import { dense } from '../../../helpers/dense';

/** The sample with a tailwheel and a nosewheel airplane. */
export const airplanes = (): WorkbookModel =>
  dense(readWorkbook(readFileSync(new URL('../../../../sample-workbooks/weighing.xlsx', import.meta.url))));

const cells = (rows: readonly (readonly Cell[])[]): CellModel[][] => rows.map((row) => row.map((value) => ({ value })));

/** An aileron of three parts and a counterweight, hinge line at 90 in: 2·4 + 0.5·8 − 0.8·2.5 = 10 lb·in. */
export const AILERON: readonly (readonly Cell[])[] = [
  ['Aileron', 'Skin', 2, 94, 2 * 94],
  ['Aileron', 'Trailing edge', 0.5, 98, 0.5 * 98],
  ['Aileron', 'Balance arm', 0.8, 87.5, 0.8 * 87.5],
  ['Spar', 'Web', 6, 75, 450],
];

export function partsSheet(rows: readonly (readonly Cell[])[] = AILERON): SheetModel {
  return {
    name: PARTS.sheet,
    cells: cells([['Component', 'Part', 'Weight (lb)', 'Arm (in)', 'Moment (lb·in)'], ...rows]),
    tables: [],
  };
}

export const surfacesSheet = (rows: readonly (readonly Cell[])[]): SheetModel => ({
  name: SURFACES.sheet,
  cells: cells([SURFACES.columns.map(({ label }) => label), ...rows]),
  tables: [],
});

export const book = (...sheets: SheetModel[]): WorkbookModel => ({ styles: [], names: [], sheets });

export const nothing: WorkbookModel = book({ name: 'Sheet1', cells: [[{ value: 'mine' }]], tables: [] });
