/** Loading cases: stations filled within their ranges, fuel burnt from take-off down to reserve. */
import { Tally } from '../mass';
import type { Load } from './arms';
import type { Envelope } from './envelope';
import { judge, type Judgement } from './judge';
import { armOnLine, endOf, pointsOn, stretches, type LoadLine } from './load-line';

export interface Station {
  readonly name: string;
  readonly arm: number;
  /** Least and greatest weight that may be loaded there, lb: 0 for an empty seat, the reserve for a tank. */
  readonly min: number;
  readonly max: number;
  /** True for a tank: what is loaded burns down to `min`, tanks in the order of the list. */
  readonly fuel?: boolean;
}

export interface Airplane {
  readonly empty: Load;
  readonly stations: readonly Station[];
  readonly envelope: Envelope;
}

/** Weights in the order of the airplane's stations; what is missing is 0. */
export interface LoadingCase {
  readonly name: string;
  readonly loads: readonly number[];
}

export interface LoadedPoint extends Load {
  readonly moment: number;
}

export interface StationFinding {
  readonly station: Station;
  readonly loaded: number;
  /** Over the station's maximum (positive) or under its minimum (negative), lb. */
  readonly by: number;
}

export interface CaseResult {
  readonly takeoff: LoadedPoint & { readonly judgement: Judgement };
  readonly landing: LoadedPoint & { readonly judgement: Judgement };
  /** Loading points from take-off to reserve, for a drawing. */
  readonly burn: readonly Load[];
  /** Where the loading point is first outside, and how much fuel has burnt by then; undefined: never. */
  readonly firstOutside: (Load & { readonly burnt: number }) | undefined;
  /** True where the loading point stays in the envelope from take-off to reserve and every station in its range. */
  readonly inside: boolean;
  readonly stationFindings: readonly StationFinding[];
}

/** Total of empty weight and loads. */
export function loadedPoint(
  { empty, stations }: Pick<Airplane, 'empty' | 'stations'>,
  loads: readonly number[],
): LoadedPoint {
  const tally = new Tally();
  tally.add(empty.weight, empty.arm);
  stations.forEach((station, index) => tally.add(loads[index] ?? 0, station.arm));
  return { weight: tally.weight, arm: tally.momentX / tally.weight, moment: tally.momentX };
}

/** One line a tank that has fuel above its minimum, in the order of burning. */
function burnLines(airplane: Airplane, loads: readonly number[]): LoadLine[] {
  const lines: LoadLine[] = [];
  let start: Load = loadedPoint(airplane, loads);
  airplane.stations.forEach(({ fuel, arm, min }, index) => {
    const burn = fuel ? (loads[index] ?? 0) - min : 0;
    if (burn <= 0) return;
    const line = { start, arm, endWeight: start.weight - burn };
    lines.push(line);
    start = endOf(line);
  });
  return lines;
}

/** Judges a loading case from take-off to reserve; along the burn it is exact, not sampled. */
export function judgeCase(airplane: Airplane, { loads }: LoadingCase): CaseResult {
  const { envelope, stations } = airplane;
  const takeoff = loadedPoint(airplane, loads);
  const lines = burnLines(airplane, loads);
  const last = lines.at(-1);
  const end: Load = last ? endOf(last) : takeoff;
  const judged = (load: Load): LoadedPoint & { judgement: Judgement } => ({
    ...load,
    moment: load.weight * load.arm,
    judgement: judge(envelope, load),
  });
  const stationFindings = stations.flatMap((station, index): StationFinding[] => {
    const loaded = loads[index] ?? 0;
    const by = loaded > station.max ? loaded - station.max : loaded < station.min ? loaded - station.min : 0;
    return by === 0 ? [] : [{ station, loaded, by }];
  });
  const firstOutside = findOutside(airplane, takeoff, lines);
  return {
    takeoff: judged(takeoff),
    landing: judged(end),
    burn: lines.length > 0 ? lines.flatMap((line, index) => pointsOn(line).slice(index === 0 ? 0 : 1)) : [takeoff],
    firstOutside,
    inside: !firstOutside && stationFindings.length === 0,
    stationFindings,
  };
}

function findOutside({ envelope }: Airplane, takeoff: Load, lines: readonly LoadLine[]): CaseResult['firstOutside'] {
  if (!judge(envelope, takeoff).inside) return { weight: takeoff.weight, arm: takeoff.arm, burnt: 0 };
  for (const line of lines) {
    const out = stretches(envelope, line).find((stretch) => !stretch.inside);
    if (out) return { weight: out.from, arm: armOnLine(line, out.from), burnt: takeoff.weight - out.from };
  }
  return undefined;
}
