import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { killKept, spawnKept, type KeptProcess } from '../helpers/kept-process';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('npm start', () => {
  let started: KeptProcess | undefined;
  afterEach(() => started && killKept(started));

  it(
    'builds, prints the wing’s roll-up and the address, serves, and ends when it is told to',
    { timeout: 300_000 },
    async () => {
      const child = (started = spawnKept(process.execPath, ['tools/start.mjs', '--no-open', '--port', '0'], root));
      let output = '';
      child.stdout.on('data', (text: Buffer) => (output += text.toString()));
      child.stderr.on('data', (text: Buffer) => (output += text.toString()));
      const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
      await expect.poll(() => output, { timeout: 240_000, interval: 200 }).toMatch(/http:\/\/127\.0\.0\.1:\d+\//);
      const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(output)![0];
      expect(output).toMatch(/Component\s+Parts/);
      expect(output).toMatch(/^Total\s+[\d,]+\s/m);
      const page = await fetch(address);
      expect(page.status).toBe(200);
      expect(await page.text()).toContain('<title>Tarebook</title>');
      expect((await fetch(`${address}samples/wing.xlsx`)).status).toBe(200);
      child.kill('SIGTERM');
      expect(await ended).toBe(0);
      await expect(fetch(address)).rejects.toThrow();
    },
  );
});
