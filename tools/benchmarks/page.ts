/**
 * How long the bench's page holds still while a long list is opened, typed into, given a row and tried out: the longest
 * task of its thread, as the browser tells it, with the memory that the page and its workers take.
 */
import { readdirSync, readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { chromium } from '../../tests/helpers/programs';
import { startBench } from '../../tests/helpers/bench-page';
import { writeWorkbook } from '../../src/xlsx';
import { bigList, type ListForm } from './big-list';
import { edited, watchTotal } from './edit';
import type { Measure, Part } from './measure';
import '../../src/hosts/bench/window';

const WAIT_MS = 120_000;
const QUIET_MS = 1500;

interface Case {
  readonly rows: number;
  readonly form: ListForm;
  readonly words: string;
  readonly longest: number;
  /** Until the first rows are painted. */
  readonly screen?: number;
  /** From the key until the total is painted. */
  readonly painted?: number;
}

const CASES: readonly Case[] = [
  { rows: 20_000, form: 'cells', words: '20,000 rows, one formula a cell', longest: 100, painted: 150 },
  { rows: 20_000, form: 'columns', words: '20,000 rows, one formula a column', longest: 100, painted: 150 },
  { rows: 100_000, form: 'cells', words: '100,000 rows, one formula a cell', longest: 250, screen: 2000 },
];

export const page: Part = async ({ runs, say }) => {
  const executable = chromium();
  if (executable === undefined) return [];
  const measures: Measure[] = [];
  for (const one of CASES) {
    const bytes = await writeWorkbook(bigList(one.rows, one.form));
    const bench = await startBench(executable, process.cwd(), false);
    try {
      const tab = await bench.open();
      tab.setDefaultTimeout(WAIT_MS);
      say(one.words);
      measures.push(...(await measured(tab, one, bytes, runs, say)));
    } finally {
      await bench.close();
    }
  }
  return measures;
};

async function measured(
  tab: Page,
  one: Case,
  bytes: Uint8Array,
  ...[runs, say]: readonly [runs: number, say: (line: string) => void]
): Promise<Measure[]> {
  const measures: Measure[] = [];
  const add = (name: string, value: number, unit: string, most?: number): void => {
    say(`${name}: ${Math.round(value)} ${unit}`);
    measures.push({
      part: 'page',
      name: `${one.words}: ${name}`,
      value,
      unit,
      ...(most === undefined ? {} : { bar: { most, of: 'value' } }),
    });
  };
  await watchTasks(tab);
  const longest = async (name: string, work: () => Promise<unknown>): Promise<void> => {
    await tab.evaluate(() => void (window.longestTask = 0));
    await work();
    await tab.evaluate(() => window.tarebook!.workbook!.settled());
    await tab.waitForTimeout(QUIET_MS);
    add(`${name}, longest task`, await tab.evaluate(() => window.longestTask ?? 0), 'ms', one.longest);
  };
  // The file is handed to the page first: how a test does that is no part of opening it.
  await tab.evaluate((text) => {
    const binary = atob(text);
    window.fileOfTest = new File([Uint8Array.from(binary, (char) => char.charCodeAt(0))], 'long.xlsx');
  }, Buffer.from(bytes).toString('base64'));
  await tab.waitForTimeout(QUIET_MS);
  await longest('opening', async () => {
    await tab.evaluate(() => {
      const files = new DataTransfer();
      files.items.add(window.fileOfTest!);
      const input = document.querySelector<HTMLInputElement>('input[type=file][aria-label="Workbook file"]')!;
      input.files = files.files;
      performance.mark('file chosen');
      input.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await tab.waitForFunction(() => document.title.startsWith('long'), undefined, { timeout: WAIT_MS });
    await tab.waitForFunction(() => !(document.querySelector('.status')?.textContent ?? '…').includes('…'));
  });
  /** From the choice of the file to the next mark of that name. */
  const since = (mark: string): Promise<number> =>
    tab.evaluate((name) => {
      const start = performance.getEntriesByName('file chosen')[0]!.startTime;
      const after = performance.getEntriesByName(name).find(({ startTime }) => startTime > start);
      return after === undefined ? Number.NaN : after.startTime - start;
    }, mark);
  add('first rows drawn', await since('first rows'), 'ms', one.screen);
  add('opened and calculated', await since('calculated'), 'ms');
  await watchTotal(tab);
  let quantity = 20;
  const times: number[] = [];
  await longest('typing', async () => {
    for (let run = 0; run <= runs; run++) times.push(await edited(tab, (quantity += 1)));
  });
  add('one edit painted', Math.min(...times), 'ms', one.painted);
  await longest('the tab Weights opened', () =>
    tab.getByRole('tablist', { name: 'Views' }).getByRole('tab', { name: 'Weights' }).click(),
  );
  // What is typed goes to the sheet again.
  for (let at = 0; at < 6 && !(await isInSheet(tab)); at++) await tab.keyboard.press('F6');
  await longest('typing beside the tab Weights', () => edited(tab, (quantity += 1)));
  await longest('what if, all rows of a component', () => triedOut(tab));
  // Last: an empty row changes how far the roll-up reaches.
  await longest('a row inserted', () => insertRow(tab));
  const memory = rendererMemory();
  if (memory !== undefined) add('memory of the page and its workers', memory, 'MB');
  return measures;
}

/** Another thickness for all rows of a component, until the outcome stands there; then let go. */
async function triedOut(tab: Page): Promise<void> {
  await tab.getByRole('tab', { name: 'What if' }).click();
  await tab.getByLabel('All of a component').selectOption('Flap');
  await tab.getByLabel('Thickness (in)').fill('.05');
  const apply = tab.getByRole('button', { name: /^Apply \(/ }).and(tab.locator(':enabled'));
  await apply.waitFor({ timeout: WAIT_MS });
  await tab.getByRole('button', { name: 'Cancel' }).click();
  await tab.getByText('Dropped. Nothing was written.').waitFor();
}

const isInSheet = (tab: Page): Promise<boolean> =>
  tab.evaluate(() => document.activeElement?.closest('.sheet') !== null);

/** By the grid's own menu, above a row of the list. */
async function insertRow(tab: Page): Promise<void> {
  await tab.mouse.click(150, 400, { button: 'right' });
  await tab.waitForTimeout(500);
  await tab.getByText('Insert', { exact: true }).first().hover({ timeout: 20_000 });
  await tab
    .getByText(/rows above/)
    .last()
    .click({ timeout: 20_000 });
}

declare global {
  interface Window {
    /** Milliseconds. */
    longestTask?: number;
    fileOfTest?: File;
  }
}

const watchTasks = (tab: Page): Promise<void> =>
  tab.evaluate(() => {
    window.longestTask = 0;
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) window.longestTask = Math.max(window.longestTask ?? 0, duration);
    }).observe({ type: 'longtask' });
  });

/** MB of the largest of the browser's processes that draw pages; undefined where the system does not tell. */
function rendererMemory(): number | undefined {
  try {
    const sizes = readdirSync('/proc').flatMap((pid) => {
      if (!/^\d+$/.test(pid)) return [];
      try {
        if (!readFileSync(`/proc/${pid}/cmdline`, 'latin1').includes('--type=renderer')) return [];
        return Number(/^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'latin1'))?.[1] ?? 0) / 1000;
      } catch {
        return [];
      }
    });
    return sizes.length > 0 ? Math.max(...sizes) : undefined;
  } catch {
    return undefined;
  }
}
