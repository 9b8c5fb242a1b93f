/** Every row-wise function over 100,000 rows against a loop written by hand. */
import { functionRatios, unmeasured } from './functions';
import type { Part } from './measure';

const ROWS = 100_000;
const MOST = 3;

export const functions: Part = async ({ runs, say }) => {
  say(`${ROWS.toLocaleString('en-US')} rows, against a loop by hand`);
  for (const why of unmeasured()) say(`not measured: ${why}`);
  return functionRatios(ROWS, 2 * runs - 1, ({ name, ratio }) => say(`${name} ${ratio.toFixed(2)}×`))
    .sort((a, b) => b.ratio - a.ratio)
    .map(({ name, ours, byHand }) => ({
      part: 'functions',
      name,
      value: ours,
      unit: 'ms',
      against: { name: 'by hand', value: byHand },
      bar: { most: MOST, of: 'ratio' },
    }));
};
