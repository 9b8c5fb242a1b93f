/** A riveted joint as one line of a list: sheets and rivets in, pieces, weight, findings and hours out. */
import { InputError } from '../input-error';
import { checkRivet, findingsText, type Finding } from './check';
import { rivet as readRivet } from './designation';
import type { LengthText } from './format';
import { MINUTES_EACH, rivetCount, rivetHours, type Row } from './layout';
import { pickRivet, type Rounding } from './pick';
import type { Rivet, RivetStyle } from './rivet';
import { holeMetal, rivetWeight } from './weight';

export interface JointInput extends Row {
  /** Thickness of every sheet that the rivet goes through, inches. */
  readonly sheets: readonly number[];
  /** A designation, or the style and diameter from which one is picked for the grip. */
  readonly rivet: string | { readonly style: RivetStyle; readonly diameter: number; readonly alloy?: string; readonly rounding?: Rounding };
  /** How often the joint is found in the airplane. */
  readonly repeats?: number;
  /** Distance from the rivets to the edge of the sheet, for the check; `edge`, from the ends of the run, where it is not given. */
  readonly edgeDistance?: number;
  /** Minutes for one rivet; MINUTES_EACH where it is not given. */
  readonly minutesEach?: number;
  /** Density of the sheets, lb/in³: with it the metal of the holes is computed. */
  readonly density?: number;
}

export interface Joint {
  readonly rivet: Rivet;
  readonly grip: number;
  /** Rivets in all repeats. */
  readonly count: number;
  /** Weight of the rivets, installed, lb. */
  readonly weight: number;
  /** Weight of the rivets as they are bought, lb. */
  readonly bought: number;
  /** Weight of the sheet in their holes, lb: counted once more in flat patterns without holes. 0 where no density is given. */
  readonly holeMetal: number;
  readonly findings: readonly Finding[];
  /** The findings as a text, "ok" where there are none. */
  readonly check: string;
  readonly hours: number;
}

/**
 * Everything that a row of a list of joints shows.
 * @throws InputError where a sheet, the run or the rivet is not of its form
 */
export function joint(input: JointInput, show?: LengthText): Joint {
  const { sheets, repeats = 1, density = 0 } = input;
  if (sheets.length === 0) throw new InputError('sheets', null, 'the thickness of one sheet or more');
  const grip = sheets.reduce((sum, thickness) => sum + thickness, 0);
  const rivet =
    typeof input.rivet === 'string' ? readRivet(input.rivet) : pickRivet(input.rivet.style, input.rivet.diameter, grip, input.rivet.rounding, input.rivet.alloy);
  const count = rivetCount(input) * repeats;
  const findings = checkRivet(
    { rivet, grip, thickestSheet: Math.max(...sheets), pitch: input.pitch, edge: input.edgeDistance ?? input.edge ?? 0, rows: input.rows ?? 1 },
    show,
  );
  return {
    rivet,
    grip,
    count,
    weight: count * rivetWeight(rivet, 'installed'),
    bought: count * rivetWeight(rivet, 'bought'),
    holeMetal: count * holeMetal(rivet, grip, density),
    findings,
    check: findingsText(findings),
    hours: rivetHours(count, input.minutesEach ?? MINUTES_EACH[rivet.kind]),
  };
}
