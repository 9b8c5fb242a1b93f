/**
 * Texts with wildcards: * stands for any text, ? for one character, and ~ takes that meaning from the next of *, ? and ~.
 * Each run of characters between two stars is looked for once, from left to right, so that no pattern takes longer
 * than its length times the text's.
 */

/** One character of a pattern; undefined for any. */
type Run = readonly (string | undefined)[];

/** The runs of a pattern between its stars, in lower case. */
function runsOf(pattern: string): readonly Run[] {
  const runs: (string | undefined)[][] = [[]];
  for (const [sign, escaped] of pattern.toLowerCase().matchAll(/~([*?~])|[^]/g))
    if (sign === '*') runs.push([]);
    else runs.at(-1)!.push(sign === '?' ? undefined : (escaped ?? sign));
  return runs;
}

function fits(run: Run, text: string, at: number): boolean {
  if (at < 0 || at + run.length > text.length) return false;
  for (let index = 0; index < run.length; index++)
    if (run[index] !== undefined && run[index] !== text[at + index]) return false;
  return true;
}

/** First place from `from` on where a run stands; -1 where there is none. */
function placeOf(run: Run, text: string, from: number): number {
  if (run.length === 0) return from <= text.length ? from : -1;
  if (run.every((character) => character !== undefined)) return text.indexOf(run.join(''), from);
  for (let at = from; at + run.length <= text.length; at++) if (fits(run, text, at)) return at;
  return -1;
}

/** Ends of the runs, each as far left as it goes; undefined where one has no place. */
function endAfter(runs: readonly Run[], text: string, from: number): number | undefined {
  let end = from;
  for (const run of runs) {
    const at = placeOf(run, text, end);
    if (at < 0) return undefined;
    end = at + run.length;
  }
  return end;
}

export const hasWildcard = (text: string): boolean => /[*?~]/.test(text);

/** Whether a whole text fits a pattern, without regard to case. */
export function wildcard(pattern: string): (text: string) => boolean {
  const runs = runsOf(pattern);
  const first = runs[0]!;
  const last = runs.at(-1)!;
  return (text) => {
    const lower = text.toLowerCase();
    if (runs.length === 1) return lower.length === first.length && fits(first, lower, 0);
    if (!fits(first, lower, 0)) return false;
    const end = endAfter(runs.slice(1, -1), lower, first.length);
    const start = lower.length - last.length;
    return end !== undefined && start >= end && fits(last, lower, start);
  };
}

/** First place from `from` on at which a text goes on as a pattern says; -1 where there is none. */
export function searchWildcard(pattern: string, text: string, from: number): number {
  const runs = runsOf(pattern);
  const lower = text.toLowerCase();
  const at = placeOf(runs[0]!, lower, from);
  // What follows the first run finds the most room behind its first place.
  return at >= 0 && endAfter(runs.slice(1), lower, at + runs[0]!.length) !== undefined ? at : -1;
}
