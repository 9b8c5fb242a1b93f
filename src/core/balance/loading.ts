/** Loadings of an airplane: along a line, case by case from take-off to reserve, and the worst that the stations allow. */
import type { Load, LoadedPoint } from './arms';
import {
  contains,
  armOnEdge,
  limitPieces,
  TOLERANCE,
  judge,
  type Envelope,
  type LimitPiece,
  type Range,
  type Judgement,
} from './envelope';
import { Tally } from '../mass';

// Weight added or used up at one station: the line that the loading point follows over the envelope.
//
// The moment grows evenly with the weight, so the arm follows a + k/W and not a straight line; where it
// crosses an edge of the envelope is the root of a quadratic, found exactly.

export interface LoadLine {
  readonly start: Load;
  /** Where the weight is added or used up. */
  readonly arm: number;
  /** Total weight at the other end; less than the start's where weight is used up. */
  readonly endWeight: number;
}

/** Arm on the line at a total weight. @internal */
export const armOnLine = ({ start, arm }: LoadLine, weight: number): number =>
  arm + (start.weight * (start.arm - arm)) / weight;

/** @internal */
export const endOf = (line: LoadLine): Load => ({ weight: line.endWeight, arm: armOnLine(line, line.endWeight) });

/**
 * The line cut where it enters or leaves the envelope, from its start to its end: stretches by total weight that lie
 * wholly inside or wholly outside. A line without length gives one. @internal
 */
export function stretches(envelope: Envelope, line: LoadLine): (Range & { readonly inside: boolean })[] {
  const { start, endWeight } = line;
  const direction = Math.sign(endWeight - start.weight) || 1;
  const cuts = [start.weight, ...meetings(envelope, line), endWeight].sort((a, b) => direction * (a - b));
  const parts: { from: number; to: number; inside: boolean }[] = [];
  for (let index = 1; index < cuts.length; index++) {
    const [from, to] = [cuts[index - 1]!, cuts[index]!];
    if (from === to && cuts.length > 2) continue;
    const middle = (from + to) / 2;
    const inside = contains(envelope, middle, armOnLine(line, middle));
    const last = parts.at(-1);
    if (last && last.inside === inside) last.to = to;
    else parts.push({ from, to, inside });
  }
  return parts;
}

/** Total weights, strictly between the ends, at which the line meets an edge of the envelope. */
function meetings(envelope: Envelope, { start, arm, endWeight }: LoadLine): number[] {
  const [low, high] = [Math.min(start.weight, endWeight), Math.max(start.weight, endWeight)];
  const k = start.weight * (start.arm - arm);
  const found: number[] = [];
  for (const { from, to } of envelope.edges) {
    const slope = (to.arm - from.arm) / (to.weight - from.weight);
    // A level edge is met at its weight, if at all.
    const roots =
      from.weight === to.weight ? [from.weight] : quadraticRoots(slope, from.arm - slope * from.weight - arm, -k);
    found.push(...roots.filter((weight) => weight > low && weight < high));
  }
  return found;
}

/** Real roots of a·x² + b·x + c, without the loss of digits of the school formula. */
function quadraticRoots(a: number, b: number, c: number): number[] {
  if (a === 0) return b === 0 ? [] : [-c / b];
  const discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return q === 0 ? [0] : [q / a, c / q];
}

/** Points along the line for a drawing, ends included. */
function pointsOn(line: LoadLine, count = 12): Load[] {
  if (line.endWeight === line.start.weight) return [line.start];
  return Array.from({ length: count }, (_, index) => {
    const weight = line.start.weight + ((line.endWeight - line.start.weight) * index) / (count - 1);
    return { weight, arm: armOnLine(line, weight) };
  });
}

/**
 * The least ballast at `ballastArm` that brings a loading into the envelope: 0 where it is inside already,
 * undefined where none does. (Unlike ballast for one target arm, this knows that the limits move with weight.)
 */
export function ballastIntoEnvelope(envelope: Envelope, load: Load, ballastArm: number): number | undefined {
  if (contains(envelope, load.weight, load.arm)) return 0;
  if (load.weight >= envelope.weights.to) return undefined;
  const entry = stretches(envelope, { start: load, arm: ballastArm, endWeight: envelope.weights.to }).find(
    (stretch) => stretch.inside,
  );
  return entry && entry.from - load.weight;
}

// Loading cases: stations filled within their ranges, fuel burnt from take-off down to reserve.

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

/** Total of empty weight and loads. @internal */
export function loadedPoint(
  { empty, stations }: Pick<Airplane, 'empty' | 'stations'>,
  loads: readonly number[],
): LoadedPoint {
  const tally = new Tally();
  tally.add(empty.weight, empty.arm);
  stations.forEach((station, index) => tally.add(loads[index] ?? 0, station.arm));
  return { weight: tally.weight, arm: tally.momentX / tally.weight, moment: tally.momentX };
}

/** What is loaded at an arm goes from one weight to another. */
interface Change extends Range {
  readonly arm: number;
}

/** A line for each change, which begins where the one before it ends. */
function linesOf(changes: readonly Change[], first: Load): LoadLine[] {
  let start = first;
  return changes.map(({ arm, from, to }) => {
    const line = { start, arm, endWeight: start.weight + to - from };
    start = endOf(line);
    return line;
  });
}

/** One line a tank that has fuel above its minimum, in the order of burning. */
const burnLines = (airplane: Airplane, loads: readonly number[]): LoadLine[] =>
  linesOf(
    airplane.stations
      .map(({ fuel, arm, min }, index) => ({ arm, from: fuel ? (loads[index] ?? 0) - min : 0, to: 0 }))
      .filter(({ from }) => from > 0),
    loadedPoint(airplane, loads),
  );

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

// The worst loadings that the stations' ranges allow, found exactly.
//
// For a given total weight the moment is least when the stations are filled in order of their arms,
// forward ones first, and greatest in the opposite order (a knapsack that may take fractions). So every
// loading there is lies between two paths, each from "all at minimum" to "all at maximum"; along a path
// the arm is a + k/W, one piece a station. The most forward arm, the most aft arm and the least margin to
// a limit that slopes with weight are all found on these paths, in closed form, piece by piece.

export type Side = 'forward' | 'aft';

export interface WorstLoading extends Load {
  /** In the order of the stations. */
  readonly loads: readonly number[];
  readonly judgement: Judgement;
}

/** The loading that comes nearest to a limit, or is farthest past it. */
export interface LeastMargin extends WorstLoading {
  /** Inches inside the limit; negative is outside. */
  readonly margin: number;
  readonly limit: number;
}

export interface WorstLoadings {
  /** The most forward and most aft arm that can be loaded without passing the highest weight; undefined where the minimums alone pass it. */
  readonly forward: WorstLoading | undefined;
  readonly aft: WorstLoading | undefined;
  /** Least margin to each limit over all loadings whose weight the envelope covers; undefined where it covers none. */
  readonly forwardMargin: LeastMargin | undefined;
  readonly aftMargin: LeastMargin | undefined;
  readonly lightest: WorstLoading;
  readonly heaviest: WorstLoading;
}

interface Path {
  readonly side: Side;
  readonly stations: readonly Station[];
  /** Places of the stations in the order of filling. */
  readonly order: readonly number[];
  readonly start: Load;
  readonly lines: readonly LoadLine[];
}

function fillPath({ empty, stations }: Airplane, side: Side): Path {
  const direction = side === 'forward' ? 1 : -1;
  const order = stations.map((_, index) => index).sort((a, b) => direction * (stations[a]!.arm - stations[b]!.arm));
  const start = loadedPoint(
    { empty, stations },
    stations.map((station) => station.min),
  );
  const filled = order
    .map((index) => ({ arm: stations[index]!.arm, from: stations[index]!.min, to: stations[index]!.max }))
    .filter(({ from, to }) => to > from);
  return { side, stations, order, start, lines: linesOf(filled, start) };
}

/** The stations' loads at a total weight on the path. */
function loadsAt({ stations, order, start }: Path, weight: number): number[] {
  const loads = stations.map((station) => station.min);
  let left = weight - start.weight;
  for (const index of order) {
    const { min, max } = stations[index]!;
    const added = Math.min(left, max - min);
    if (added <= 0) continue;
    // A station that takes all it can is at its maximum, not at what rounding makes of min + (max − min).
    loads[index] = added === max - min ? max : min + added;
    left -= added;
  }
  return loads;
}

/** The most forward (or aft) point of a path up to a weight: each station is filled while it moves the arm the wrong way. */
function worstArm(path: Path, maxWeight: number): Load | undefined {
  if (path.start.weight > maxWeight) return undefined;
  let worst = path.start;
  for (const line of path.lines) {
    const helps = path.side === 'forward' ? line.arm < worst.arm : line.arm > worst.arm;
    if (!helps || worst.weight >= maxWeight) break;
    const weight = Math.min(line.endWeight, maxWeight);
    worst = { weight, arm: armOnLine(line, weight) };
  }
  return worst;
}

interface Candidate extends Load {
  readonly margin: number;
  readonly limit: number;
}

/** The candidate with the least margin, the first of several. */
const leastOf = (candidates: readonly Candidate[]): Candidate | undefined =>
  candidates.reduce<Candidate | undefined>(
    (least, one) => (least && least.margin <= one.margin ? least : one),
    undefined,
  );

/** Least margin where a piece of the path and a piece of the limit share their weights: at an end, or where the slopes agree. */
function leastOn(side: Side, line: LoadLine, piece: LimitPiece): Candidate | undefined {
  const from = Math.max(line.start.weight, piece.weights.from);
  const to = Math.min(line.endWeight, piece.weights.to);
  if (from > to) return undefined;
  const edge = piece[side];
  const slope = (edge.to.arm - edge.from.arm) / (edge.to.weight - edge.from.weight);
  const k = line.start.weight * (line.start.arm - line.arm);
  const level = Math.sqrt(-k / slope);
  return leastOf(
    [from, to, ...(level > from && level < to ? [level] : [])].map((weight) => {
      const [arm, limit] = [armOnLine(line, weight), armOnEdge(edge, weight)];
      return { weight, arm, limit, margin: side === 'forward' ? arm - limit : limit - arm };
    }),
  );
}

function leastMargin(path: Path, pieces: readonly LimitPiece[]): Candidate | undefined {
  const lines =
    path.lines.length > 0 ? path.lines : [{ start: path.start, arm: path.start.arm, endWeight: path.start.weight }];
  return leastOf(lines.flatMap((line) => pieces.flatMap((piece) => leastOn(path.side, line, piece) ?? [])));
}

/**
 * Worst forward, worst aft, least margins, lightest and heaviest over everything that the stations'
 * ranges allow. Weights above the envelope's highest are left out of the search for the worst arms.
 */
export function worstLoadings(airplane: Airplane): WorstLoadings {
  const { envelope } = airplane;
  const [forward, aft] = [fillPath(airplane, 'forward'), fillPath(airplane, 'aft')];
  const pieces = limitPieces(envelope);
  const complete = (path: Path, load: Load): WorstLoading => ({
    weight: load.weight,
    arm: load.arm,
    loads: loadsAt(path, load.weight),
    judgement: judge(envelope, load),
  });
  const worst = (path: Path): WorstLoading | undefined => {
    const load = worstArm(path, envelope.weights.to);
    return load && complete(path, load);
  };
  const margin = (path: Path): LeastMargin | undefined => {
    const found = leastMargin(path, pieces);
    return found && { ...complete(path, found), margin: found.margin, limit: found.limit };
  };
  const last = forward.lines.at(-1);
  return {
    forward: worst(forward),
    aft: worst(aft),
    forwardMargin: margin(forward),
    aftMargin: margin(aft),
    lightest: complete(forward, forward.start),
    heaviest: complete(forward, last ? endOf(last) : forward.start),
  };
}

/** Outline, for a drawing, of all loadings that the stations' ranges allow: up the forward path and down the aft one. */
export function reachableOutline(airplane: Airplane): Load[] {
  const side = (path: Path): Load[] => [path.start, ...path.lines.flatMap((line) => pointsOn(line).slice(1))];
  return [...side(fillPath(airplane, 'forward')), ...side(fillPath(airplane, 'aft')).reverse().slice(1)];
}

/** True where every loading that the ranges allow is inside the envelope (its notches apart, if it has any). */
export function allInside({ envelope }: Airplane, worst: WorstLoadings): boolean {
  const slack = (range: Range): number => TOLERANCE * (range.to - range.from);
  const { weights, arms } = envelope;
  const margin = Math.min(worst.forwardMargin?.margin ?? -Infinity, worst.aftMargin?.margin ?? -Infinity);
  return (
    worst.lightest.weight >= weights.from - slack(weights) &&
    worst.heaviest.weight <= weights.to + slack(weights) &&
    margin >= -slack(arms)
  );
}
