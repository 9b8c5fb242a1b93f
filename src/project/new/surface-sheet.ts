/** The edits that add the sheet of control surfaces. Sums are plain arithmetic, so that the sheet reads without the add-in. */
import { columnName, quoteSheet, type Edit } from '../../sheet';
import { unitIn, type UnitSystem } from '../../core/quantity';
import { SURFACES, type PartKey, type SurfaceKey } from '../forms';
import type { FormSheet } from '../rows';
import { cellsIn, labelsOf, SheetPlan, type LookName } from './plan';

/** Lengths in in, scale readings in lb, whatever the sheet will be in. */
export interface NewSurface {
  readonly name: string;
  readonly component?: string;
  readonly hinge?: number;
  readonly raising?: number;
  readonly lowering?: number;
  readonly scaleArm?: number;
  readonly ahead?: number;
  readonly note?: string;
}

const HEADER = 5;
const FIRST = HEADER + 1;
const ROWS = 12;
/** Rows of the parts list that the sums look at. */
const PARTS_ROWS = 2000;

/**
 * Adds the sheet Control surfaces.
 * @param parts where the parts list stands; without one the column From parts stays blank on the sheet
 * @param add   false where the sheet is there already and empty
 * @param units of the sheet: the parts list's, or the column From parts stays blank
 */
export function newSurfacesSheet(
  parts: FormSheet<PartKey> | undefined,
  surfaces: readonly NewSurface[],
  add = true,
  units: UnitSystem = systemOfParts(parts),
): Edit[] {
  const at = (key: SurfaceKey): number => SURFACES.columns.findIndex((column) => column.key === key);
  const letter = (key: SurfaceKey): string => columnName(at(key));
  const last = FIRST + ROWS - 1;
  const rows = (key: SurfaceKey): string => `${letter(key)}${FIRST}:${letter(key)}${last}`;
  const plan = new SheetPlan(SURFACES.sheet)
    .heading('Control surfaces', [
      'One row a surface, level on its hinges. Moments are about the hinge line; a positive one is trailing-edge heavy.',
      'How a surface has to be balanced is in the designer’s documents; paint and repairs change it. Shaded cells are typed.',
    ])
    .header(HEADER - 1, labelsOf(SURFACES, units));
  for (let row = FIRST; row <= last; row++) {
    const cell = (key: SurfaceKey): string => `${letter(key)}${row}`;
    const moment = parts && isIn(parts, units) && partsMoment(parts, cell('component'), cell('hinge'));
    if (moment) plan.formula(row - 1, at('partsMoment'), moment);
    plan
      .formula(
        row - 1,
        at('measured'),
        `IF(COUNT(${cell('raising')}:${cell('scaleArm')})<3,"",(${cell('raising')}+${cell('lowering')})/2*${cell('scaleArm')})`,
      )
      .formula(
        row - 1,
        at('counterweight'),
        `IF(OR(${cell('ahead')}="",COUNT(${cell('partsMoment')}:${cell('measured')})=0),"",MAX(0,IF(${cell('measured')}="",${cell('partsMoment')},${cell('measured')}))/${cell('ahead')}*IF(${cell('share')}="",100,${cell('share')})/100)`,
      );
  }
  const of = cellsIn(units);
  plan.rows(
    FIRST - 1,
    surfaces.map(({ name, component, hinge, raising, lowering, scaleArm, ahead }) => [
      name,
      component,
      of(hinge, 'length'),
      of(raising, 'weight'),
      of(lowering, 'weight'),
      of(scaleArm, 'length'),
      of(ahead, 'length'),
    ]),
  );
  plan.rows(
    FIRST - 1,
    surfaces.map(({ note }) => [note]),
    at('note'),
  );
  for (const { key } of SURFACES.columns) plan.look(rows(key), COLUMN_LOOKS[key]);
  return plan.widths([20, 20, 13, 11, 12, 12, 20, 9, 15, 15, 16, 40]).edits(add);
}

const COLUMN_LOOKS: Readonly<Record<SurfaceKey, LookName>> = {
  surface: 'text',
  component: 'text',
  hinge: 'inches',
  raising: 'inches',
  lowering: 'inches',
  scaleArm: 'inches',
  ahead: 'inches',
  share: 'text',
  partsMoment: 'inchesComputed',
  measured: 'inchesComputed',
  counterweight: 'inchesComputed',
  note: 'text',
};

/** The columns that the sheet's formulas sum are in just the units that the sheet is in. */
const isIn = ({ units: of }: FormSheet<PartKey>, units: UnitSystem): boolean =>
  of.weight === unitIn('weight', units) && of.arm === unitIn('length', units) && of.moment === unitIn('moment', units);

const systemOfParts = (parts: FormSheet<PartKey> | undefined): UnitSystem => parts?.units.weight?.system ?? 'in-lb';

/** Σ weight × (arm − hinge line) over the component's rows that have an arm. */
function partsMoment(
  { sheet, header, columns }: FormSheet<PartKey>,
  component: string,
  hinge: string,
): string | undefined {
  const range = (key: PartKey): string | undefined => {
    const column = columns[key];
    return column === undefined
      ? undefined
      : `${quoteSheet(sheet)}!$${columnName(column)}$${header + 2}:$${columnName(column)}$${header + 1 + PARTS_ROWS}`;
  };
  const [names, weights, arms, moments] = [range('component'), range('weight'), range('arm'), range('moment')];
  if (!names || !weights || !arms || !moments) return undefined;
  return `IF(OR(${component}="",${hinge}=""),"",SUMIFS(${moments},${names},${component},${arms},"<>")-${hinge}*SUMIFS(${weights},${names},${component},${arms},"<>"))`;
}
