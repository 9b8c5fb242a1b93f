/** How much a weight is likely to grow before the part exists, by how far the part has come. */
import { NotListedError, show } from '../input-error';
import { memoized } from '../memoized';
import { nameKey } from '../names';

/** How a part's weight is known. */
export const STATUSES = ['estimated', 'laid out', 'released', 'existing', 'weighed'] as const;
export type Status = (typeof STATUSES)[number];

export interface Allowance {
  readonly status: string;
  /** Growth as a fraction of the weight: 0.25 is 25 %. */
  readonly fraction: number;
}

/**
 * Practice of spacecraft makers, not of airplane builders; from memory, verify. What was read has other steps: 10 to
 * 30 % at first and 2 to 3 % before production (abstract of SAWE paper 2120). A builder's own table replaces it.
 */
export const GROWTH_ALLOWANCES: readonly Allowance[] = [
  { status: 'estimated', fraction: 0.25 },
  { status: 'laid out', fraction: 0.15 },
  { status: 'released', fraction: 0.05 },
  { status: 'existing', fraction: 0.03 },
  { status: 'weighed', fraction: 0 },
];

export const GROWTH_SOURCE =
  'Growth allowances: a rule of thumb from memory, no source seen (abstract of SAWE paper 2120: 10 to 30 % at first, 2 to 3 % before production); a table of your own replaces them';

const keyOf = memoized((status: string): string => {
  const word = nameKey(status.replace(/[_-]/g, ' '));
  return word === 'layout' || word === 'laidout' ? 'laid out' : word;
});

/** A status that says the part itself has been on a scale. */
export const isWeighed = (status: string): boolean => keyOf(status) === 'weighed';

/** More statuses than this in a message would hide what it says. */
const MOST_NAMED = 8;

function statusWords(allowances: readonly Allowance[]): string {
  const named = allowances
    .slice(0, MOST_NAMED)
    .map(({ status }) => show(status))
    .join(', ');
  return allowances.length > MOST_NAMED ? `${named} and ${allowances.length - MOST_NAMED} more` : named;
}

/** The allowance of a status as a fraction; NotListedError, which names `parameter`, where the table does not hold it. */
export function growthAllowance(
  status: string,
  allowances: readonly Allowance[] = GROWTH_ALLOWANCES,
  parameter = 'status',
): number {
  const fraction = fractions(allowances).get(keyOf(status));
  if (fraction === undefined) throw new NotListedError(parameter, status, statusWords(allowances));
  return fraction;
}

/** By key; of two rows for one status the first holds. */
const fractions = memoized(
  (allowances: readonly Allowance[]) =>
    new Map([...allowances].reverse().map(({ status, fraction }) => [keyOf(status), fraction])),
  8,
);

/** The weight that the finished part is expected to have. */
export const forecastWeight = (weight: number, status: string, allowances?: readonly Allowance[]): number =>
  weight * (1 + growthAllowance(status, allowances));
