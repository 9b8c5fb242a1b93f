/** What the Balance tab computes at each edit: the airplanes of a workbook weighed, loaded and judged. */
import { readFileSync } from 'node:fs';
import { balanceModels, projectSheetsOf } from '../../src/project';
import { readWorkbook } from '../../src/xlsx';
import type { Part } from './measure';

const SAMPLE = 'sample-workbooks/weighing.xlsx';
/** A person who types sees no delay below it. */
const SOON_MS = 50;

/** Warm, as in a pane that is open: the first calls are not counted. */
export const balance: Part = ({ runs }) => {
  const { values, names } = projectSheetsOf(readWorkbook(readFileSync(SAMPLE)));
  const times = Array.from({ length: 20 * runs }, () => {
    const start = performance.now();
    const models = balanceModels(values, names);
    const time = performance.now() - start;
    if (!models.some(({ judged }) => judged)) throw new Error(`${SAMPLE} has no airplane that can be judged`);
    return time;
  }).sort((a, b) => a - b);
  return Promise.resolve([
    { part: 'balance', name: 'all airplanes judged, slowest call', value: times.at(-1)!, unit: 'ms' },
    {
      part: 'balance',
      name: 'all airplanes judged, in the middle of the calls',
      value: times[times.length >> 1]!,
      unit: 'ms',
      bar: { most: SOON_MS, of: 'value' },
    },
  ]);
};
