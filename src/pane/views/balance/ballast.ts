/** Ballast that keeps a loading inside from take-off to landing. */
import { ballastIntoEnvelope, judgeCase, type Airplane, type CaseResult } from '../../../core/balance';
import { fromInch, toInch, type UnitSystem } from '../../../core/quantity';

export interface Ballast {
  /** lb; whole tenths of the system's unit, rounded up */
  readonly weight: number;
  /** The loading with the ballast aboard. */
  readonly result: CaseResult;
}

/** Scales and bags of shot are read to a tenth of a pound, or of a kilogram. */
const STEPS = 10;
const MOST_STEPS = 500;

/**
 * The least ballast, in tenths of a pound or of a kilogram, at an arm (in) that brings the loading into the envelope from take-off
 * to landing; undefined where none does. Each step is the least that its worst point needs, so that no
 * lighter ballast is passed over.
 */
export function ballastFor(
  airplane: Airplane,
  loads: readonly number[],
  arm: number,
  units: UnitSystem = 'in-lb',
): Ballast | undefined {
  let steps = 0;
  for (let tries = 0; tries < MOST_STEPS; tries++) {
    const weight = toInch(steps / STEPS, 'weight', units);
    const result = judgeCase(
      { ...airplane, stations: [...airplane.stations, { name: 'Ballast', arm, min: weight, max: weight }] },
      { name: '', loads: [...loads, weight] },
    );
    if (!result.firstOutside) return { weight, result };
    let needed = 0;
    for (const point of [result.takeoff, ...result.burn, result.landing]) {
      const more = ballastIntoEnvelope(airplane.envelope, point, arm);
      if (more === undefined) return undefined;
      needed = Math.max(needed, more);
    }
    // The slack keeps a whole number of steps from being rounded to one more.
    steps = Math.max(steps + 1, Math.ceil(fromInch(weight + needed, 'weight', units) * STEPS - 1e-6));
  }
  return undefined;
}
