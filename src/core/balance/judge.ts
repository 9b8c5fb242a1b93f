/** A loading against the envelope: inside or not, by how much, and in words. */
import { quantities, type Quantities } from '../quantity';
import type { Load } from './arms';
import { armsAt, contains, TOLERANCE, type Envelope, type Range } from './envelope';

/** A page that judges limits shows this once. */
export const LIMITS_CAUTION = 'Limits come from the aircraft’s own documents; an estimate is not a weighing.';

export interface Finding {
  readonly kind: 'forward' | 'aft' | 'between' | 'heavy' | 'light';
  /** How far out: inches for an arm, pounds for a weight. */
  readonly by: number;
}

export interface Judgement extends Load {
  readonly inside: boolean;
  /** Forward and aft limit at this weight, or at the nearest weight that the envelope covers where it does not cover this one. */
  readonly limits: Range;
  /** The weight that the limits are for. */
  readonly limitsAt: number;
  /** What is out, and by how much; empty where it is inside. */
  readonly findings: readonly Finding[];
}

/** Judges a loading. Edges and corners of the envelope count as inside. */
export function judge(envelope: Envelope, { weight, arm }: Load): Judgement {
  const { from: lightest, to: heaviest } = envelope.weights;
  const inside = contains(envelope, weight, arm);
  const limitsAt = Math.min(heaviest, Math.max(lightest, weight));
  const ranges = armsAt(envelope, limitsAt);
  const limits = { from: ranges[0]!.from, to: ranges.at(-1)!.to };
  const findings: Finding[] = [];
  if (!inside) {
    if (weight > heaviest) findings.push({ kind: 'heavy', by: weight - heaviest });
    if (weight < lightest) findings.push({ kind: 'light', by: lightest - weight });
    if (arm < limits.from) findings.push({ kind: 'forward', by: limits.from - arm });
    if (arm > limits.to) findings.push({ kind: 'aft', by: arm - limits.to });
    if (findings.length === 0)
      findings.push({
        kind: 'between',
        by: Math.min(...ranges.flatMap((range) => [Math.abs(arm - range.from), Math.abs(arm - range.to)])),
      });
  }
  return { weight, arm, inside, limits, limitsAt, findings };
}

/** How a weight and an arm are said, with their unit. */
export interface Wording {
  weight(pounds: number): string;
  arm(inches: number): string;
}

/** Weights and arms in a unit system, with enough decimals that none of them reads 0. */
export const wordingOf = (say: Quantities): Wording => ({
  // A decimal is about what a scale for airplanes shows, in pounds and in kilograms.
  weight: (pounds) => say.tell(pounds, 'weight', say.system === 'mm-kg' ? 0 : 1),
  arm: (inches) => say.tell(inches, 'length', 2),
});

export const INCH_POUND: Wording = wordingOf(quantities('in-lb'));

/** "inside, 2.50 in aft of the forward limit and 0.40 in forward of the aft limit" */
export function judgementWords(judgement: Judgement, say: Wording = INCH_POUND): string {
  const { inside, findings, limits, limitsAt, weight, arm } = judgement;
  if (inside) return insideWords(judgement, say);
  const where =
    limitsAt === weight
      ? `at ${say.weight(weight)}`
      : `at the envelope’s ${weight > limitsAt ? 'highest' : 'lowest'} weight, ${say.weight(limitsAt)}`;
  const words = findings.map(({ kind, by }) => {
    switch (kind) {
      case 'heavy':
        return `${say.weight(by)} over the highest weight, ${say.weight(limitsAt)}`;
      case 'light':
        return `${say.weight(by)} under the lowest weight, ${say.weight(limitsAt)}`;
      case 'forward':
        return `${say.arm(by)} forward of the forward limit, ${say.arm(limits.from)} ${where}`;
      case 'aft':
        return `${say.arm(by)} aft of the aft limit, ${say.arm(limits.to)} ${where}`;
      case 'between':
        return `between two allowed ranges of arms ${where}, ${say.arm(by)} from the nearer at ${say.arm(arm)}`;
    }
  });
  return `outside: ${words.join('; ')}`;
}

function insideWords({ arm, limits }: Judgement, say: Wording): string {
  const slack = TOLERANCE * Math.max(1, limits.to - limits.from);
  const aftOfForward = arm - limits.from;
  const forwardOfAft = limits.to - arm;
  const forward = aftOfForward <= slack ? 'on the forward limit' : `${say.arm(aftOfForward)} aft of the forward limit`;
  const aft = forwardOfAft <= slack ? 'on the aft limit' : `${say.arm(forwardOfAft)} forward of the aft limit`;
  return `inside, ${forward} and ${aft}`;
}
