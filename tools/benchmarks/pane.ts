/** What a person waits for in the pane, and in a terminal: rows found in a long price list, a loading judged after Enter, one formula evaluated. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { chromium as playwright, type Page } from 'playwright-core';
import { dense } from '../../tests/helpers/dense';
import { chromium } from '../../tests/helpers/programs';
import { startStation } from '../../tests/helpers/start-station';
import { PRICE_COLUMNS } from '../../src/core/price';
import type { WorkbookModel } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';
import { bestOf, type Measure, type Part } from './measure';

const ROWS = 800;
const FOUND_MS = 500;
const JUDGED_MS = 100;
const EVALUATED_MS = 1000;

/** A price list of many items, invented. */
function prices(): WorkbookModel {
  const labels = PRICE_COLUMNS.map(({ label }) => label);
  const lines = Array.from({ length: ROWS }, (_, index) =>
    labels.map((label) => ({ Item: `Part ${index}`, Kind: 'other', 'Sold by': 'each', Price: 1 })[label] ?? null),
  );
  const range = { sheet: 'Prices', row: 0, column: 0, rows: ROWS + 1, columns: labels.length };
  const cells = [labels, ...lines].map((line) => line.map((value) => ({ value })));
  return {
    styles: [],
    names: [],
    sheets: [{ name: 'Prices', cells, tables: [{ name: 'Prices', range, columns: labels }] }],
  };
}

/** What the page of the tests offers. */
interface Handles {
  end(): void;
  start(model: WorkbookModel, options: object): Promise<void>;
}

const sample = (name: string): WorkbookModel => dense(readWorkbook(readFileSync(`sample-workbooks/${name}.xlsx`)));

const show = (page: Page, model: WorkbookModel): Promise<void> =>
  page.evaluate(async (given) => {
    const { handles } = window as unknown as { readonly handles: Handles };
    handles.end();
    await handles.start(given, {});
  }, model);

interface Asked {
  /** Selector of a field, and what is typed into it. */
  readonly into: string;
  readonly typed: string;
  readonly enter?: boolean;
  /** Selector of what answers, and words of the answer. */
  readonly at: string;
  readonly says: string;
}

/** Types into a field as React hears it, and waits in the page for the answer; ms. */
const answered = (page: Page, asked: Asked): Promise<number> =>
  page.evaluate(async ({ into, typed, enter, at, says }) => {
    const input = document.querySelector<HTMLInputElement>(into)!;
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(input, typed);
    const start = performance.now();
    input.dispatchEvent(new Event('input', { bubbles: true }));
    if (enter) input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
    while (!document.querySelector(at)!.textContent.includes(says)) await new Promise((resolve) => setTimeout(resolve));
    return performance.now() - start;
  }, asked);

async function inThePane(executable: string, runs: number): Promise<Measure[]> {
  const station = await startStation('tests/helpers/station.mjs');
  const browser = await playwright.launch({ executablePath: executable, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage({ viewport: { width: 600, height: 700 } });
    await page.goto(station.address);
    await show(page, prices());
    await page.getByRole('searchbox').waitFor();
    const found = await bestOf(
      runs,
      async () => {
        const field = { into: 'input[type=search]', at: '[role=status]' };
        await answered(page, { ...field, typed: '', says: `${ROWS} rows` });
        return answered(page, { ...field, typed: 'part 77', says: ` of ${ROWS} rows` });
      },
      (time) => time,
    );
    await show(page, sample('weighing'));
    await page.getByRole('tab', { name: 'Balance' }).click();
    await page.getByRole('tab', { name: 'Loading' }).click();
    await page.getByRole('textbox', { name: 'Load of Baggage, lb' }).waitFor();
    let pounds = 200;
    const judged = await bestOf(
      runs,
      () => {
        pounds += 1;
        return answered(page, {
          into: 'input[aria-label="Load of Baggage, lb"]',
          typed: String(pounds),
          enter: true,
          at: '[aria-label="Verdict"]',
          says: `Baggage: ${pounds}`,
        });
      },
      (time) => time,
    );
    return [
      {
        part: 'pane',
        name: `rows found among ${ROWS} prices`,
        value: found,
        unit: 'ms',
        bar: { most: FOUND_MS, of: 'value' },
      },
      {
        part: 'pane',
        name: 'a loading judged after Enter',
        value: judged,
        unit: 'ms',
        bar: { most: JUDGED_MS, of: 'value' },
      },
    ];
  } finally {
    await browser.close();
    await station.end();
  }
}

/** A formula evaluated by the command, the whole process. */
function evaluated(runs: number): Measure {
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    spawnSync(process.execPath, ['src/cli/tarebook.mjs', 'eval', '=TARE.AREA.RECT(1,2)']);
    return performance.now() - start;
  });
  return {
    part: 'pane',
    name: 'tarebook eval, one formula',
    value: Math.min(...times),
    unit: 'ms',
    bar: { most: EVALUATED_MS, of: 'value' },
  };
}

export const pane: Part = async ({ runs, say }) => {
  const executable = chromium();
  const command = evaluated(runs);
  if (executable === undefined) {
    say('no Chromium here: the pane is left out');
    return [command];
  }
  return [...(await inThePane(executable, runs)), command];
};
