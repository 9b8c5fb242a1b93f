/** Start-up: the functions bundle in a bare engine, and the bench in a browser. */
import { readFileSync } from 'node:fs';
import { createContext, Script } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { chromium } from '../../tests/helpers/programs';
import { startBench } from '../../tests/helpers/bench-page';
import type { Measure, Part } from './measure';

const MOST_KB = 75;
const REGISTERED_MS = 10;
const USABLE_MS = 5000;

function functionsBundle(runs: number): Measure[] {
  const source = readFileSync('dist/functions/functions.js', 'utf8');
  const times = Array.from({ length: 5 * runs }, (_run, index) => {
    const context = createContext({ CustomFunctions: { associate: () => undefined, Error } });
    const start = performance.now();
    // A text of its own, so that nothing is compiled ahead.
    new Script(`${source}\n//${index}`, { filename: 'functions.js' }).runInContext(context);
    return performance.now() - start;
  });
  return [
    {
      part: 'start',
      name: 'functions bundle, compiled and registered',
      value: Math.min(...times),
      unit: 'ms',
      bar: { most: REGISTERED_MS, of: 'value' },
    },
    {
      part: 'start',
      name: 'functions bundle, gzipped',
      value: gzipSync(source).length / 1000,
      unit: 'kB',
      bar: { most: MOST_KB, of: 'value' },
    },
  ];
}

export const start: Part = async ({ runs, say }) => {
  const measures = functionsBundle(runs);
  const executable = chromium();
  if (executable === undefined) return measures;
  say('the bench with the sample wing');
  const bench = await startBench(executable, process.cwd(), false);
  try {
    const paints: number[] = [];
    const usable: number[] = [];
    for (let i = 0; i <= runs; i++) {
      const page = await bench.open();
      usable.push(await page.evaluate(() => performance.now()));
      paints.push(
        await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN),
      );
      await page.close();
    }
    const [paint, use] = [paints, usable].map(([cold = Number.NaN, ...warm]) => ({
      cold,
      warm: Math.min(...warm),
    })) as [{ cold: number; warm: number }, { cold: number; warm: number }];
    return [
      ...measures,
      { part: 'start', name: 'bench, first start: painted', value: paint.cold, unit: 'ms' },
      {
        part: 'start',
        name: 'bench, first start: workbook calculated',
        value: use.cold,
        unit: 'ms',
        bar: { most: USABLE_MS, of: 'value' },
      },
      { part: 'start', name: 'bench, later start: painted', value: paint.warm, unit: 'ms' },
      {
        part: 'start',
        name: 'bench, later start: workbook calculated',
        value: use.warm,
        unit: 'ms',
        bar: { most: USABLE_MS, of: 'value' },
      },
    ];
  } finally {
    await bench.close();
  }
};
