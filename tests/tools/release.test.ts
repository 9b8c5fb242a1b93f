/** A release as others get it: unpacked elsewhere, served under a path by another server, used without the network. */
import { execFile, execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { unzipSync } from 'fflate';
import { chromium as playwright, type BrowserContext, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { all, named, parseXml } from '../manifest/xml-tree';
import { CHROMIUM_ARGS, ready, readOne, root } from '../helpers/bench-page';
import { chromium } from '../helpers/programs';
import '../../src/hosts/bench/window';

const HOST = 'https://planes.example/shop/tarebook';
const executable = chromium();
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
const folder = mkdtempSync(join(tmpdir(), 'tarebook-release-'));
const out = join(folder, 'out', version);
/** Where a stranger's server has it. */
const served = join(folder, 'www', 'some', 'path');

beforeAll(() => {
  execFileSync(
    process.execPath,
    ['tools/run-ts.mjs', 'tools/release/main.ts', '--host', `${HOST}/`, '--out', join(folder, 'out'), '--no-deps'],
    { cwd: root, stdio: 'pipe' },
  );
  const files = unzipSync(readFileSync(join(out, `tarebook-${version}-site.zip`)));
  for (const [name, bytes] of Object.entries(files)) {
    mkdirSync(dirname(join(served, name)), { recursive: true });
    writeFileSync(join(served, name), bytes);
  }
}, 240_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const read = (...path: string[]): string => readFileSync(join(served, ...path), 'utf8');

describe('the folder', () => {
  it('is refused for what is no address of a server', () => {
    const asked = (...args: string[]): string => {
      try {
        execFileSync(process.execPath, ['tools/run-ts.mjs', 'tools/release/main.ts', ...args], {
          cwd: root,
          stdio: 'pipe',
        });
        return 'made';
      } catch (error) {
        return String((error as { stderr: Buffer }).stderr).trim();
      }
    };
    expect(asked()).toBe(
      'release: say where the folder will be served: npm run release -- --host https://your.host/tarebook',
    );
    expect(asked('--host', 'http://planes.example')).toMatch(/^release: the host must be an https address/);
  });

  it('has checksums of every file, which are right', () => {
    const lines = readFileSync(join(out, 'SHA256SUMS'), 'utf8').trim().split('\n');
    expect(lines.length).toBeGreaterThan(100);
    for (const line of lines) {
      const [sum, name] = line.split('  ') as [string, string];
      expect(
        createHash('sha256')
          .update(readFileSync(join(out, name)))
          .digest('hex'),
        name,
      ).toBe(sum);
    }
  });

  it('has a manifest whose every address is a file in it, of this version', () => {
    const manifest = parseXml(read('manifest.xml'));
    const addresses = all(manifest)
      .flatMap((element) => [element.attributes.DefaultValue ?? '', element.text.trim()])
      .filter((value) => value.includes('://'));
    expect(addresses.length).toBeGreaterThan(8);
    for (const address of addresses) {
      expect(address.startsWith(`${HOST}/`), address).toBe(true);
      expect(existsSync(join(served, address.slice(HOST.length + 1))), address).toBe(true);
    }
    const text = (name: string): string => named(manifest, name)[0]!.text;
    expect(text('Version')).toBe(`1.${version}`);
    expect(text('Id')).toBe('cfe1ddaa-bb1f-4c30-b806-96ef0ca1e2bc');
    expect(named(manifest, 'SupportUrl')[0]!.attributes.DefaultValue).toBe(`${HOST}/support.html`);
  });

  it('has help links to its own pages, and none to the server of development', () => {
    const { functions } = JSON.parse(read(version, 'functions', 'functions.json')) as {
      functions: { helpUrl: string }[];
    };
    for (const { helpUrl } of functions)
      expect(existsSync(join(served, helpUrl.slice(HOST.length + 1))), helpUrl).toBe(true);
    for (const page of ['manifest.xml', 'index.html', 'support.html', `${version}/functions/functions.json`])
      expect(read(page), page).not.toContain('localhost');
  });

  it('has the notices of all whose work is in it, and their licences', () => {
    const notices = read('THIRD-PARTY-NOTICES.txt');
    for (const name of [
      'react',
      '@univerjs/core',
      'decimal.js',
      'highs',
      '@microsoft/office-js',
      'commander',
      'fflate',
    ])
      expect(notices, name).toMatch(new RegExp(`^${name} \\d`, 'm'));
    expect(notices).not.toContain('undefined');
    expect(read(version, 'pane', 'office', 'LICENSE.md')).toContain('MICROSOFT OFFICE JAVASCRIPT');
    expect(read('LICENSE.txt')).toContain('MIT License');
    expect(read('CHANGELOG.txt')).toContain('Numbers that changed');
  });

  it('has pages without a dead link', () => {
    for (const name of ['index.html', 'privacy.html', 'support.html', 'hosting.html']) {
      const html = read(name);
      for (const [, to] of html.matchAll(/(?:href|src)="([^"#:]+)"/g))
        expect(existsSync(join(served, to!)), `${name}: ${to}`).toBe(true);
    }
  });
});

describe('the command as a package', () => {
  const tarball = join(out, `tarebook-${version}.tgz`);

  it('is under 15 MB, and has no tests in it', () => {
    expect(statSync(tarball).size).toBeLessThan(15_000_000);
    const names = execFileSync('tar', ['-tzf', tarball], { encoding: 'utf8' });
    expect(names).toContain('package/dist/cli/tarebook.mjs');
    expect(names).toContain('package/LICENSE');
    expect(names).not.toMatch(/\.test\.|\/tests\/|\/src\//);
  });

  it('runs in an empty folder with nothing else installed and no network', { timeout: 120_000 }, async () => {
    const empty = join(folder, 'empty');
    mkdirSync(empty);
    copyFileSync(tarball, join(empty, 'tarebook.tgz'));
    copyFileSync(join(root, 'sample-workbooks', 'wing.xlsx'), join(empty, 'wing.xlsx'));
    const env = { ...process.env, npm_config_cache: join(folder, 'npm'), npm_config_offline: 'true', HOME: folder };
    const npx = (...args: string[]) =>
      promisify(execFile)('npx', ['--yes', './tarebook.tgz', ...args], { cwd: empty, env });
    expect((await npx('report', 'wing.xlsx')).stdout).toMatch(/Total +\d/);
    // The solver of the cutting plans lies beside the command.
    writeFileSync(join(empty, 'parts.csv'), 'name,length,quantity\nstrip,30,4\n');
    writeFileSync(join(empty, 'stock.csv'), 'name,length,cost\nbar,144,20\n');
    expect((await npx('cut', '--parts', 'parts.csv', '--stock', 'stock.csv')).stdout).toMatch(/bar/);
    const serving = spawn('npx', ['--yes', './tarebook.tgz', 'serve', '--port', '0', '--no-open'], {
      cwd: empty,
      env,
      detached: true,
    });
    try {
      const address = await new Promise<string>((resolve, reject) => {
        let said = '';
        serving.stdout.on('data', (text) => {
          const found = /http:\/\/\S+/.exec((said += String(text)));
          if (found) resolve(found[0]);
        });
        serving.once('exit', () => reject(new Error(`serve ended: ${said}`)));
      });
      expect(await (await fetch(address)).text()).toContain('Tarebook is starting');
      expect((await fetch(`${address}samples/wing.xlsx`)).status).toBe(200);
    } finally {
      process.kill(-serving.pid!, 'SIGTERM');
    }
  });
});

describe.skipIf(!executable)('the bench as an app', () => {
  let server: ChildProcess;
  let context: BrowserContext;
  let page: Page;
  let bench: string;
  beforeAll(async () => {
    // A server that is not ours: Python's, over the folder above.
    server = spawn('python3', ['-u', '-m', 'http.server', '0', '--bind', '127.0.0.1'], {
      cwd: join(folder, 'www'),
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const port = await new Promise<string>((resolve) =>
      server.stdout!.on('data', (text) => {
        const found = /port (\d+)/.exec(String(text));
        if (found) resolve(found[1]!);
      }),
    );
    bench = `http://127.0.0.1:${port}/some/path/bench/`;
    context = await playwright.launchPersistentContext(join(folder, 'profile'), {
      executablePath: executable!,
      headless: true,
      args: CHROMIUM_ARGS,
      viewport: { width: 1400, height: 900 },
      acceptDownloads: true,
    });
    page = await context.newPage();
  });
  const write = (sheet: string, row: number, column: number, value: number): Promise<void> =>
    page.evaluate(
      ([range, cell]) => window.tarebook!.workbook!.apply('write', [{ kind: 'write', range, cells: [[cell]] }]),
      [{ sheet, row, column, rows: 1, columns: 1 }, value] as const,
    );
  afterAll(async () => {
    await context?.close();
    server?.kill();
  });

  it('opens under the path, installs itself, and asks no other server', async () => {
    const outside: string[] = [];
    context.on('request', (request) => {
      if (!request.url().startsWith(bench) && !/^(data|blob|chrome|about):/.test(request.url()))
        outside.push(request.url());
    });
    await page.goto(bench);
    await ready(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    const session = await context.newCDPSession(page);
    // What Chromium itself finds wanting in an app.
    const { installabilityErrors } = (await session.send('Page.getInstallabilityErrors')) as {
      installabilityErrors: { errorId: string }[];
    };
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
    expect(outside).toEqual([]);
  });

  it('saves into the file that was opened, after asking, and never over another program’s work', async () => {
    // The browser's own window for choosing cannot be driven: a file of the page's private disk stands for the choice.
    await page.evaluate(async () => {
      const disk = await navigator.storage.getDirectory();
      const handle = await disk.getFileHandle('mine.xlsx', { create: true });
      const writing = await handle.createWritable();
      await writing.write(await (await fetch('samples/rib.xlsx')).arrayBuffer());
      await writing.close();
      Object.assign(window, { showOpenFilePicker: async () => [handle] });
    });
    const sumOfFile = (): Promise<string> =>
      page.evaluate(async () => {
        const disk = await navigator.storage.getDirectory();
        const file = await (await disk.getFileHandle('mine.xlsx')).getFile();
        const sum = await crypto.subtle.digest('SHA-256', await file.arrayBuffer());
        return [...new Uint8Array(sum)].join(' ');
      });
    await page.getByRole('button', { name: 'Open …' }).click();
    await page.getByRole('button', { name: 'Workbook file (.xlsx) …' }).click();
    await page.waitForFunction(() => document.title === 'mine – Tarebook');
    await ready(page);
    const before = await sumOfFile();
    await write('Lesson', 5, 1, 7.25);
    await expect.poll(() => readOne(page, 'Lesson', 5, 1)).toBe(7.25);
    await page.getByRole('button', { name: 'Save mine.xlsx' }).click();
    expect(await sumOfFile()).toBe(before);
    await page.getByRole('button', { name: 'Replace file' }).click();
    await page.getByText('Saved in mine.xlsx').waitFor();
    const saved = await sumOfFile();
    expect(saved).not.toBe(before);
    // Agreed once: not asked again. What is said of the last saving stands until the next begins.
    const changed = (): Promise<number> =>
      page.evaluate(async () => {
        const disk = await navigator.storage.getDirectory();
        return (await (await disk.getFileHandle('mine.xlsx')).getFile()).lastModified;
      });
    const last = await changed();
    await page.getByRole('button', { name: 'Save mine.xlsx' }).click();
    await expect.poll(changed).not.toBe(last);
    await page.getByText('Saved in mine.xlsx').waitFor();
    await page.evaluate(async () => {
      const disk = await navigator.storage.getDirectory();
      const writing = await (await disk.getFileHandle('mine.xlsx')).createWritable();
      await writing.write('another program');
      await writing.close();
    });
    const theirs = await sumOfFile();
    await page.getByRole('button', { name: 'Save mine.xlsx' }).click();
    await page.getByText('was changed by another program').waitFor();
    expect(await sumOfFile()).toBe(theirs);
  });

  it('offers a new version and loads it when asked, with the workbook kept', async () => {
    const worker = join(served, 'bench', 'worker.js');
    writeFileSync(worker, `${readFileSync(worker, 'utf8')}\n/* newer */\n`);
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())!.update());
    const load = page.getByRole('button', { name: 'Load new version' });
    await load.waitFor();
    // Not forced: the page is as it was.
    expect(await readOne(page, 'Lesson', 5, 1)).toBe(7.25);
    await Promise.all([page.waitForEvent('load'), load.click()]);
    await ready(page);
    expect(await readOne(page, 'Lesson', 5, 1)).toBe(7.25);
    expect(await load.count()).toBe(0);
  });

  it('works with the server gone: opens, calculates, reads a sample and a function’s page', async () => {
    server.kill();
    await new Promise((resolve) => server.once('exit', resolve));
    await page.close();
    page = await context.newPage();
    await page.goto(`${bench}?language=de`);
    await ready(page);
    expect(await readOne(page, 'Lesson', 5, 1)).toBe(7.25);
    await page.getByRole('button', { name: 'Open …' }).click();
    await page.getByRole('button', { name: /^wing A complete/ }).click();
    await page.waitForFunction(() => document.title === 'wing – Tarebook');
    await ready(page);
    await write('Parts', 5, 4, 0.05);
    await expect.poll(() => readOne(page, 'Parts', 5, 4)).toBe(0.05);
    expect((await page.goto(`${bench}reference/index.html`))!.status()).toBe(200);
  });
});
