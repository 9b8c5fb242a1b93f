/** The pages that Excel loads, in a real browser with the published Office.js served from our own origin. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { catalogue } from '../../../src/functions';
import { axeFindings } from '../../helpers/axe';
import { chromiumPath, connectBrowser, contextWithFonts } from '../../helpers/browser';
import { fontsNotBrought } from '../../helpers/fonts';
import { serve, type Served } from '../../../src/cli/serve';

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** Office and Excel as a page of an add-in finds them, with an empty workbook; what `run` does is left open. */
const office = (run: string, background = '#ffffff'): string => `
  const anything = () => new Proxy(function () {}, {
    get: (_target, name) => ({ then: undefined, items: [], name: 'wing.xlsx', value: 0, isNullObject: true, sync: async () => {} })[name] ?? (name === 'then' ? undefined : anything()),
    apply: () => anything(),
    set: () => true,
  });
  window.Office = {
    onReady: async () => ({ host: 'Excel', platform: 'OfficeOnline' }),
    context: { host: 'Excel', platform: 'OfficeOnline', officeTheme: { bodyBackgroundColor: '${background}' }, requirements: { isSetSupported: () => true } },
  };
  window.Excel = { run: async (...args) => { ${run} } };`;
const EMPTY_WORKBOOK = 'return args.at(-1)(anything());';

describe.runIf(chromiumPath)('in a browser', () => {
  let browser: Browser;
  let served: Served;
  let page: Page;
  /** Requests of the page to another origin, its uncaught errors, and the frames that its policy refused. */
  let outside: string[];
  let faults: string[];
  let framing: string[];

  beforeAll(async () => {
    execFileSync(process.execPath, ['tools/build.mjs', 'functions', 'pane'], { cwd: root, stdio: 'pipe' });
    // Without the bench's headers: these pages load the library of Office from where a test puts it.
    served = await serve({ mounts: [{ prefix: '/', folder: `${root}dist` }], port: 0, headers: {} });
    browser = await connectBrowser();
  }, 300_000);
  afterEach(async () => {
    if (!page || page.isClosed()) return;
    const foreign = await fontsNotBrought(page);
    await page.context().close();
    expect(foreign).toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
  });

  async function open(
    path: string,
    {
      officeScript,
      skipping = false,
      ...look
    }: { officeScript?: string; colorScheme?: 'dark' | 'light'; width?: number; skipping?: boolean } = {},
  ): Promise<void> {
    const context = await contextWithFonts(browser, {
      viewport: { width: look.width ?? 350, height: 700 },
      colorScheme: look.colorScheme ?? 'light',
    });
    page = await context.newPage();
    if (skipping) await page.clock.install();
    const [strangers, errors, frames] = [(outside = []), (faults = []), (framing = [])] as [
      string[],
      string[],
      string[],
    ];
    page.on('request', (request) => {
      if (!request.url().startsWith(served.address) && !request.url().startsWith('data:'))
        strangers.push(request.url());
    });
    page.on('response', (response) => {
      if (response.status() >= 400) errors.push(`${response.status()} ${response.url()}`);
    });
    page.on('console', (message) => {
      if (/^Framing .* Content Security Policy/.test(message.text())) frames.push(message.text());
    });
    page.on('pageerror', (error) => errors.push(error.message));
    if (officeScript !== undefined)
      await page.route('**/office/office.js', (route) =>
        route.fulfill({ contentType: 'text/javascript', body: officeScript }),
      );
    await page.goto(new URL(path, served.address).href, { waitUntil: 'load' });
  }

  async function expectAccessible(): Promise<void> {
    expect(await axeFindings(page)).toEqual([]);
  }

  /** No request to another origin, no missing file, no fault, even in the next four seconds, which a page that was opened to skip time has at once: Office.js starts its telemetry 3 s after loading. */
  async function expectQuiet(): Promise<void> {
    await page.clock.runFor(4000);
    await page.waitForTimeout(100);
    expect(outside).toEqual([]);
    expect(faults).toEqual([]);
  }

  describe('the functions page', () => {
    it('registers every function with the published runtime, and asks nothing of another origin', async () => {
      await open('/functions/functions.html', { skipping: true });
      const names = await page.evaluate(() =>
        Object.keys((window as unknown as Runtime).CustomFunctions._association.mappings),
      );
      expect(names.sort()).toEqual(catalogue.map(({ name }) => name).sort());
      await expectQuiet();
      // The telemetry's time had come: it would be in a frame of its own.
      expect(framing).toEqual([expect.stringContaining('telemetry')]);
    });

    it('gives results and errors that the published runtime sends on with their messages', async () => {
      await open('/functions/functions.html');
      const sent = await page.evaluate(() => {
        const { CustomFunctions } = window as unknown as Runtime;
        const handler = CustomFunctions._association.mappings['AREA.RECT']!;
        const sentOn = (...args: unknown[]): unknown => {
          try {
            return JSON.parse(JSON.stringify(handler(...args, { functionName: 'AREA.RECT' }))) as unknown;
          } catch (error) {
            return {
              thrown: (error as Error).message,
              code: (error as { code?: string }).code,
              ours: error instanceof CustomFunctions.Error,
            };
          }
        };
        return [
          sentOn([[144], [12], [new CustomFunctions.Error('#N/A')], ['']], 48),
          sentOn(-1, 2),
          sentOn([[1], [-1]], 2),
        ];
      });
      expect(sent[0]).toEqual([
        [6912],
        [576],
        [expect.objectContaining({ code: '#N/A', errorType: 'NotAvailable' })],
        [''],
      ]);
      expect(sent[1]).toEqual({
        thrown: 'length: got -1; takes inches above 0 and up to 12000',
        code: '#VALUE!',
        ours: true,
      });
      expect(sent[2]).toEqual([
        [2],
        [
          expect.objectContaining({
            code: '#VALUE!',
            errorType: 'Value',
            message: 'length: got -1; takes inches above 0 and up to 12000',
          }),
        ],
      ]);
    });

    it('has its reference beside it: the page of every help link, readable and with no request to another origin', async () => {
      const { functions } = JSON.parse(readFileSync(`${root}dist/functions/functions.json`, 'utf8')) as {
        functions: { helpUrl: string }[];
      };
      const missing = functions
        .map(({ helpUrl }) => new URL(helpUrl).pathname)
        .filter((path) => !existsSync(`${root}dist${path}`));
      expect(missing).toEqual([]);
      for (const path of ['/functions/reference/index.html', new URL(functions[0]!.helpUrl).pathname]) {
        await open(path, { width: 600 });
        await expectAccessible();
        expect(outside).toEqual([]);
      }
    });
  });

  describe('the pane', () => {
    it.each(['light', 'dark'] as const)('outside Excel says so and offers the bench (%s)', async (colorScheme) => {
      await open('/pane/index.html', { colorScheme, skipping: true });
      await page.getByRole('heading', { name: 'This page belongs beside a workbook in Excel' }).waitFor();
      expect(
        await page
          .getByRole('link', { name: 'Open the bench' })
          .evaluate((link) => (link as HTMLAnchorElement).pathname),
      ).toBe('/bench/index.html');
      await expectAccessible();
      await expectQuiet();
    });

    it.each([
      ['light', '#ffffff'],
      ['dark', '#262626'],
    ])(
      'in Excel shows its views in Office’s %s theme, at 320 px, with no request to another origin',
      async (_theme, background) => {
        await open('/pane/index.html', {
          officeScript: office(EMPTY_WORKBOOK, background),
          width: 320,
          skipping: true,
        });
        await page.getByRole('tab').first().waitFor();
        const ground = await page.evaluate(() => {
          for (let node: Element | null = document.querySelector('[role=tab]'); node; node = node.parentElement) {
            const color = getComputedStyle(node).backgroundColor;
            if (!/, 0\)$|transparent/.test(color)) return color;
          }
          return 'none';
        });
        const [red] = /\d+/.exec(ground) ?? ['-1'];
        expect(Number(red) < 128, `the ground is ${ground}`).toBe(background === '#262626');
        await expectAccessible();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
        await expectQuiet();
      },
    );

    it('paints, and says how soon', async () => {
      await open('/pane/index.html', { officeScript: office(EMPTY_WORKBOOK) });
      await page.getByRole('tab').first().waitFor();
      const time = await page.evaluate(
        () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Infinity,
      );
      console.log(`pane: first paint after ${Math.round(time)} ms`);
      expect(time).toBeLessThan(Infinity);
    });

    it('says what went wrong where the workbook cannot be opened', async () => {
      await open('/pane/index.html', {
        officeScript: office("throw Object.assign(new Error('no'), { code: 'AccessDenied' });"),
      });
      await page.getByRole('heading', { name: 'Tarebook could not open the workbook' }).waitFor();
      await page.getByText('Excel refuses the change: the sheet or the workbook is protected').waitFor();
      await page.getByText('Excel runs on the web').waitFor();
      await expectAccessible();
    });
  });

  it('is at most 300 kB gzipped when it opens: the ordinary functions of a trial are fetched for one', () => {
    const { gzip } = JSON.parse(readFileSync(`${root}dist/.stamps/pane.json`, 'utf8')) as { gzip: number };
    expect(gzip).toBeLessThanOrEqual(300_000);
  });
});

interface Runtime {
  readonly CustomFunctions: {
    readonly _association: { readonly mappings: Record<string, (...args: unknown[]) => unknown> };
    readonly Error: new (code: string, message?: string) => Error;
  };
}
