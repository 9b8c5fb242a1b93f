/** What is said of a function that is not known: with the ones that may have been meant. */
import { memoized } from '../core/memoized';
import { editDistance } from '../core/names';
import { catalogue, NAMESPACE } from '../functions';
import { FUNCTIONS } from './functions';

const MOST = 3;
/** One letter may differ for every so many letters of the name. A name that differs in more is a function of some other add-in and no slip. */
const LETTERS_A_SLIP = 4;

/** "There is no function SUMM. Did you mean SUM or SUMSQ?" */
export const unknownFunction = memoized((name: string): string => {
  const near = nearFunctions(name);
  const last = near.pop();
  const listed = near.length ? `${near.join(', ')} or ${last}` : last;
  return `There is no function ${name}${listed === undefined ? '' : `. Did you mean ${listed}?`}`;
});

/** Names of functions that a mistyped one may stand for, nearest first; dots and a left-out "TARE." do not count. */
export function nearFunctions(written: string): string[] {
  const wanted = lettersOf(written);
  const most = Math.floor(wanted.length / LETTERS_A_SLIP);
  const all = [...catalogue.map(({ name }) => `${NAMESPACE}.${name}`), ...FUNCTIONS.keys()];
  return all
    .map((name) => ({ name, far: farness(wanted, lettersOf(name), most) }))
    .filter(({ far }) => far <= most)
    .sort((a, b) => a.far - b.far)
    .slice(0, MOST)
    .map(({ name }) => name);
}

/** A name of at least so many letters may be the start of what was written: AREA.RECT of AREA.RECTANGLE. */
const LEAST_STEM = 5;

/** How far a name is from what was written. A name that is only the start of the written word comes after those that are near. */
function farness(wanted: string, name: string, most: number): number {
  const isSpelledOut = name.length >= LEAST_STEM && name.length * 2 > wanted.length && wanted.startsWith(name);
  return Math.min(distance(wanted, name, most), isSpelledOut ? most : Infinity);
}

const lettersOf = (name: string): string =>
  name
    .toUpperCase()
    .replace(new RegExp(`^${NAMESPACE}(?=[^A-Z])`), '')
    .replace(/[^A-Z0-9]/g, '');

/** Infinity where the lengths alone say that it is more than `most`. */
const distance = (a: string, b: string, most: number): number =>
  Math.abs(a.length - b.length) > most ? Infinity : editDistance(a, b);
