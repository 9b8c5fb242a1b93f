/** A run for ended-run.test.ts, which ends it: it has a page in the shared browser, a browser and a server, and does not end by itself. */
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { mkdirSync, writeFileSync } from 'node:fs';
import { chromium as playwright } from 'playwright-core';
import { it } from 'vitest';
import { chromiumPath, connectBrowser } from '../helpers/browser';
import { spawnKept } from '../helpers/kept-process';

const SERVER = "require('node:http').createServer().listen(0, '127.0.0.1')";

it('waits to be ended', { timeout: 600_000 }, async () => {
  const marker = process.env['TAREBOOK_RUN']!;
  spawnKept(process.execPath, ['-e', SERVER]);
  if (chromiumPath) {
    await (await connectBrowser()).newPage();
    await playwright.launch({ executablePath: chromiumPath, args: ['--no-sandbox'] });
  }
  mkdirSync(join(tmpdir(), marker), { recursive: true });
  writeFileSync(join(tmpdir(), marker, 'ready'), '');
  await new Promise(() => undefined);
});
