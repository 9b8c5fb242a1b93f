/**
 * The worst loadings that the stations' ranges allow, found exactly.
 *
 * For a given total weight the moment is least when the stations are filled in order of their arms,
 * forward ones first, and greatest in the opposite order (a knapsack that may take fractions). So every
 * loading there is lies between two paths, each from "all at minimum" to "all at maximum"; along a path
 * the arm is a + k/W, one piece a station. The most forward arm, the most aft arm and the least margin to
 * a limit that slopes with weight are all found on these paths, in closed form, piece by piece.
 */
import { armOnEdge, limitPieces, TOLERANCE, type LimitPiece, type Range } from './envelope';
import type { Load } from './arms';
import { judge, type Judgement } from './judge';
import { armOnLine, endOf, pointsOn, type LoadLine } from './load-line';
import { loadedPoint, type Airplane, type Station } from './loading';

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
  const base = loadedPoint(
    { empty, stations },
    stations.map((station) => station.min),
  );
  const lines: LoadLine[] = [];
  let start: Load = base;
  for (const index of order) {
    const { arm, min, max } = stations[index]!;
    if (!(max > min)) continue;
    const line = { start, arm, endWeight: start.weight + max - min };
    lines.push(line);
    start = endOf(line);
  }
  return { side, stations, order, start: base, lines };
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

/** Least margin where a piece of the path and a piece of the limit share their weights: at an end, or where the slopes agree. */
function leastOn(side: Side, line: LoadLine, piece: LimitPiece): Candidate | undefined {
  const from = Math.max(line.start.weight, piece.weights.from);
  const to = Math.min(line.endWeight, piece.weights.to);
  if (from > to) return undefined;
  const edge = piece[side];
  const slope = (edge.to.arm - edge.from.arm) / (edge.to.weight - edge.from.weight);
  const k = line.start.weight * (line.start.arm - line.arm);
  const level = Math.sqrt(-k / slope);
  let least: Candidate | undefined;
  for (const weight of [from, to, ...(level > from && level < to ? [level] : [])]) {
    const [arm, limit] = [armOnLine(line, weight), armOnEdge(edge, weight)];
    const margin = side === 'forward' ? arm - limit : limit - arm;
    if (!least || margin < least.margin) least = { weight, arm, limit, margin };
  }
  return least;
}

function leastMargin(path: Path, pieces: readonly LimitPiece[]): Candidate | undefined {
  const lines =
    path.lines.length > 0 ? path.lines : [{ start: path.start, arm: path.start.arm, endWeight: path.start.weight }];
  let least: Candidate | undefined;
  for (const line of lines) {
    for (const piece of pieces) {
      const one = leastOn(path.side, line, piece);
      if (one && (!least || one.margin < least.margin)) least = one;
    }
  }
  return least;
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
