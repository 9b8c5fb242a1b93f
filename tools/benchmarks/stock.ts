/**
 * npm run bench -- stock: how much of the sheets is used and how long it takes, beside two packers for textures
 * and boxes on the same parts (whose layouts need not be cuttable with a shear) and beside the area bound;
 * then the public instances, where they are here.
 */
import { planBars, planSheets, type SheetPart } from '../../src/core/stock';
import { loadHighsSolver } from '../../src/core/stock/highs-solver';
import { wingParts } from '../../tests/helpers/wing-parts';
import { barInstances, haveInstances, sheetInstance } from './instances';

const SHEET = { name: '4 × 12', length: 144, width: 48, cost: 100 };
const solver = await loadHighsSolver();
const seconds = async <T>(run: () => T | Promise<T>): Promise<[T, number]> => {
  const start = performance.now();
  const result = await run();
  return [result, (performance.now() - start) / 1000];
};

const parts = wingParts('any');
const pieces = parts.flatMap((part) => Array.from({ length: part.quantity }, () => part));
const area = pieces.reduce((sum, { length, width }) => sum + length * width, 0);
const percent = (sheets: number): string =>
  `${((100 * area) / (sheets * SHEET.length * SHEET.width)).toFixed(1).padStart(5)} %`;
const row = (name: string, sheets: number, time: number, note = ''): void =>
  console.log(
    `${name.padEnd(34)} ${String(sheets).padStart(3)} sheets  ${percent(sheets)}  ${time.toFixed(2).padStart(6)} s  ${note}`,
  );

async function maxRects(list: readonly SheetPart[]): Promise<number> {
  // By its file: what the package names first is no module for Node.
  const file: string = 'maxrects-packer/dist/maxrects-packer.mjs';
  const { MaxRectsPacker } = (await import(file)) as typeof import('maxrects-packer');
  // It packs whole numbers: eighths of an inch.
  const packer = new MaxRectsPacker(SHEET.length * 8, SHEET.width * 8, 0, {
    smart: false,
    pot: false,
    square: false,
    allowRotation: true,
  });
  packer.addArray(
    list.map(({ length, width }) => ({ width: Math.ceil(length * 8), height: Math.ceil(width * 8) })) as never,
  );
  return packer.bins.length;
}

interface Boxes {
  readonly BP2D: {
    Packer: new (bins: unknown[]) => { pack(boxes: unknown[]): unknown[] };
    Bin: new (w: number, h: number) => unknown;
    Box: new (w: number, h: number) => unknown;
  };
}

async function boxes(list: readonly SheetPart[]): Promise<number> {
  // @ts-expect-error the package has no types of its own
  const module = (await import('binpackingjs')) as unknown as Boxes & { default?: Boxes };
  const { BP2D } = module.default ?? module;
  const packer = new BP2D.Packer(Array.from({ length: 40 }, () => new BP2D.Bin(SHEET.length, SHEET.width)));
  packer.pack(list.map(({ length, width }) => new BP2D.Box(length, width)));
  const bins = (packer as unknown as { bins: { boxes: unknown[] }[] }).bins;
  return bins.filter((bin) => bin.boxes.length > 0).length;
}

console.log(`A wing: ${parts.length} kinds, ${pieces.length} pieces, sheets of ${SHEET.name} ft, either way round`);
console.log(`${'Area bound'.padEnd(34)} ${String(Math.ceil(area / (SHEET.length * SHEET.width))).padStart(3)} sheets`);
const [plan, time] = await seconds(() => planSheets(parts, [SHEET], { solver, seconds: 5, strips: 'either' }));
row(
  'Tarebook, two stages, shearable',
  plan.cost / SHEET.cost,
  time,
  `${plan.status}, bound ${plan.lowerBound / SHEET.cost}, gap ${(100 * plan.gap).toFixed(1)} %`,
);
const [rects, rectsTime] = await seconds(() => maxRects(pieces));
row('maxrects-packer, not shearable', rects, rectsTime);
const [boxed, boxedTime] = await seconds(() => boxes(pieces));
row('binpackingjs, not shearable', boxed, boxedTime);

if (!haveInstances()) {
  console.log('skipped: data not here (../shared/data)');
} else {
  console.log('\nBars: plan less best known, slowest');
  for (const [name, file] of [
    ['u250', 'binpack2'],
    ['t60', 'binpack5'],
    ['t120', 'binpack6'],
  ] as const) {
    const results: { over: number; time: number }[] = [];
    for (const { capacity, parts: bars, bestKnown } of barInstances(file)) {
      const [made, took] = await seconds(() =>
        planBars(bars, [{ name: 'bar', length: capacity, cost: 1 }], { solver, seconds: 20 }),
      );
      results.push({ over: made.cost - bestKnown, time: took });
    }
    console.log(
      `${name.padEnd(6)} ${results.length} instances, over by ${Math.min(...results.map(({ over }) => over))} to ${Math.max(...results.map(({ over }) => over))}, ${Math.max(...results.map(({ time: took }) => took)).toFixed(2)} s at most`,
    );
  }
  console.log('\nSheets in two stages: over best known, gap, time');
  for (let number = 1; number <= 8; number++) {
    const { name, parts: sheets, stock, bestKnown } = sheetInstance(number);
    const [made, took] = await seconds(() => planSheets(sheets, stock, { solver, seconds: 20, strips: 'along' }));
    console.log(
      `${name}  ${(100 * (made.cost / bestKnown - 1)).toFixed(3).padStart(7)} %  ${(100 * made.gap).toFixed(2)} %  ${took.toFixed(2)} s`,
    );
  }
}
process.exit(0);
