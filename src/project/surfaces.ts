/** Control surfaces on their hinges: from the parts list, from the scale at the trailing edge, and how the two agree. */
import { sameName } from '../core/names';
import { counterweight, hingeMoment, measuredMoment, surfaceBalance, type SurfaceBalance } from '../core/balance';
import type { UnitSystem } from '../core/quantity';
import type { PartRow, PartsList } from './parts';
import { kept, type Problem, type SheetValues } from './reading';
import { readerOf, unitsOfProject } from './project-units';
import { INCHES, type FormRow, type FormSheet, type NumberRule, type RowReader } from './rows';
import { textIn } from '../sheet';
import { SURFACES, type SurfaceKey } from './forms';

/** Of a surface, from the rows of its component. */
export interface SurfaceParts {
  readonly rows: readonly PartRow[];
  /** Rows that have no weight or no arm: they are left out. */
  readonly incomplete: readonly PartRow[];
  /** lb, of the rows that count */
  readonly weight: number;
  /** lb·in about the hinge line */
  readonly moment: number;
}

export interface SurfaceMeasured {
  readonly moment: number;
  /** Half of what raising and lowering differ by, lb·in: what the hinges' friction holds. */
  readonly friction: number;
}

export interface SurfaceRow {
  /** Row on the sheet, from 0. */
  readonly row: number;
  readonly name: string;
  readonly component: string;
  readonly hinge: number | undefined;
  readonly parts: SurfaceParts | undefined;
  readonly measured: SurfaceMeasured | undefined;
  /** Measured less parts, lb·in: positive where the finished surface is the heavier behind its hinge. */
  readonly difference: number | undefined;
  /** Of the measured moment, else of the parts'. */
  readonly balance: (SurfaceBalance & { readonly from: 'scale' | 'parts' }) | undefined;
  /** Per cent of the moment to be taken up. */
  readonly share: number;
  readonly ahead: number | undefined;
  /** lb at `ahead`; undefined where there is no arm, or nothing to take up. */
  readonly counterweight: number | undefined;
}

export interface SurfacesSheet {
  readonly form: FormSheet<SurfaceKey>;
  /** The system that the surfaces are shown in: the workbook's. */
  readonly units: UnitSystem;
  readonly surfaces: readonly SurfaceRow[];
  readonly problems: readonly Problem[];
}

const READING: NumberRule = {
  min: -1e4,
  max: 1e4,
  takes: ({ unit }) => `${unit} as the scale shows them; negative where the edge has to be held down`,
};
const FROM_HINGE: NumberRule = { above: 0, max: 12_000, takes: ({ unit }) => `${unit} from the hinge line, above 0` };
const SHARE: NumberRule = { min: 5, max: 200, takes: 'per cent from 5 to 200: 80 for 80 %' };

/** The control surfaces of a sheet; undefined where it has no header of surfaces. */
export const readSurfaces = kept(
  (
    values: SheetValues,
    parts: PartsList | undefined,
    sheet: string = SURFACES.sheet,
    units: UnitSystem = unitsOfProject(values),
  ): SurfacesSheet | undefined => {
    const reader = readerOf(values, SURFACES, sheet);
    return (
      reader && {
        form: reader.sheet,
        units,
        surfaces: reader.sheet.rows.flatMap((row) => readSurface(row, reader, parts) ?? []),
        problems: reader.problems,
      }
    );
  },
);

// eslint-disable-next-line complexity -- each column may be missing
function readSurface(
  row: FormRow<SurfaceKey>,
  reader: RowReader<SurfaceKey>,
  list: PartsList | undefined,
): SurfaceRow | undefined {
  const component = textIn(row.cells.component);
  const hinge = component === '' ? reader.number(row, 'hinge', INCHES) : reader.needed(row, 'hinge', INCHES);
  const parts = component === '' || hinge === undefined ? undefined : partsOf(component, hinge, list);
  if (component !== '' && list && !list.rows.some((part) => sameName(part.component, component)))
    reader.problem(row, 'component', `"${component}" is no component of the parts list`);
  const measured = readMeasured(row, reader);
  const share = reader.number(row, 'share', SHARE) ?? 100;
  const ahead = reader.number(row, 'ahead', FROM_HINGE);
  const moment = measured?.moment ?? parts?.moment;
  return {
    row: row.row,
    name: textIn(row.cells.surface) || component || `Surface in row ${row.row + 1}`,
    component,
    hinge,
    parts,
    measured,
    difference: measured && parts && measured.moment - parts.moment,
    balance:
      moment === undefined
        ? undefined
        : { ...surfaceBalance(moment, measured?.friction), from: measured ? 'scale' : 'parts' },
    share,
    ahead,
    counterweight:
      moment === undefined || ahead === undefined || moment <= 0
        ? undefined
        : counterweight(moment, ahead, share / 100),
  };
}

function readMeasured(row: FormRow<SurfaceKey>, reader: RowReader<SurfaceKey>): SurfaceMeasured | undefined {
  const raising = reader.number(row, 'raising', READING);
  const lowering = reader.number(row, 'lowering', READING);
  const arm =
    raising === undefined && lowering === undefined
      ? reader.number(row, 'scaleArm', FROM_HINGE)
      : reader.needed(row, 'scaleArm', FROM_HINGE);
  if (raising === undefined && lowering === undefined) return undefined;
  if (raising === undefined || lowering === undefined) {
    const key = raising === undefined ? 'raising' : 'lowering';
    if (row.cells[key] === undefined && !reader.isRefused(key))
      reader.problem(
        row,
        key,
        'is blank; takes the reading in this direction too: the mean of both is without the hinges’ friction',
      );
    return undefined;
  }
  return arm === undefined
    ? undefined
    : { moment: measuredMoment(raising, lowering, arm), friction: (Math.abs(raising - lowering) / 2) * arm };
}

function partsOf(component: string, hinge: number, list: PartsList | undefined): SurfaceParts | undefined {
  const rows = list?.rows.filter((part) => sameName(part.component, component)) ?? [];
  if (rows.length === 0) return undefined;
  const loads = rows.flatMap(({ weight, arm }) =>
    weight === undefined || arm === undefined ? [] : [{ weight, arm: arm - hinge }],
  );
  return {
    rows,
    incomplete: rows.filter(({ weight, arm }) => weight === undefined || arm === undefined),
    weight: loads.reduce((sum, { weight }) => sum + weight, 0),
    moment: hingeMoment(loads),
  };
}
