/** What a command may write onto: plain files that it does not read. All of it in a folder of the test's own. */
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tarebook } from './tarebook';

const folder = mkdtempSync(join(tmpdir(), 'tarebook-outputs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => join(folder, name);
const WING = fileURLToPath(new URL('../../sample-workbooks/weighing.xlsx', import.meta.url));
const PARTS = 'Name,Length,Quantity\nStiffener,10,2\n';
const STOCK = 'Name,Length,Cost\nBar,96,12\n';

beforeAll(() => {
  copyFileSync(WING, at('in.xlsx'));
  writeFileSync(at('parts.csv'), PARTS);
  writeFileSync(at('stock.csv'), STOCK);
  linkSync(at('in.xlsx'), at('hard.xlsx'));
  symlinkSync(at('in.xlsx'), at('soft.xlsx'));
  linkSync(at('parts.csv'), at('hard.csv'));
  symlinkSync('parts.csv', at('soft.csv'));
  symlinkSync('nowhere', at('dangling'));
  mkdirSync(at('sub'));
  if (process.platform !== 'win32') execFileSync('mkfifo', [at('pipe')]);
});

const cut = (...more: string[]) =>
  tarebook('cut', '--parts', at('parts.csv'), '--stock', at('stock.csv'), '--seconds', '0', ...more);
const commands: readonly (readonly [name: string, run: (target: string) => ReturnType<typeof tarebook>])[] = [
  ['recalc -o', (target) => tarebook('recalc', at('in.xlsx'), '-o', target)],
  ['values -o', (target) => tarebook('values', at('in.xlsx'), '-o', target)],
  ['report --html', (target) => tarebook('report', at('in.xlsx'), '--html', target)],
  ['cut --csv', (target) => cut('--csv', target)],
  ['cut --dxf', (target) => cut('--dxf', target)],
];

describe.each(commands)('%s', (_name, run) => {
  it.each([
    ['pipe', /^.*pipe is a device, a pipe or a socket\. Give the name of a file\.\n$/],
    ['dangling', /^.*dangling is a link to a file that does not exist\. Give the name of a file\.\n$/],
    ['sub', /^.*sub is a folder\. Give the name of a file\.\n$/],
  ])('refuses to write onto a %s, which stays', async (name, message) => {
    const before = lstatSync(at(name));
    expect(await run(at(name))).toMatchObject({ code: 2, out: '', err: expect.stringMatching(message) as string });
    const after = lstatSync(at(name));
    expect([after.ino, after.mode]).toEqual([before.ino, before.mode]);
  });

  it('refuses a socket', async () => {
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(at('socket'), resolve));
    expect(await run(at('socket'))).toMatchObject({ code: 2, err: expect.stringContaining('a socket') as string });
    expect(lstatSync(at('socket')).isSocket()).toBe(true);
    await new Promise((resolve) => server.close(resolve));
  });

  it('writes a new file, and over another that it does not read', async () => {
    for (let time = 0; time < 2; time++) {
      expect((await run(at('new'))).code).toBe(0);
      expect(existsSync(at('new'))).toBe(true);
    }
    rmSync(at('new'));
  });
});

describe('an output that is an input', () => {
  it.each([
    ['the same path', 'in.xlsx'],
    ['a path around', 'sub/../in.xlsx'],
    ['a link', 'soft.xlsx'],
    ['a hard link', 'hard.xlsx'],
  ])('of recalc and report is refused: %s', async (_how, name) => {
    const before = readFileSync(at('in.xlsx'));
    const target = `${folder}/${name}`;
    for (const args of [
      ['recalc', at('in.xlsx'), '-o', target],
      ['report', at('in.xlsx'), '--html', target],
    ])
      expect(await tarebook(...args)).toMatchObject({
        code: 2,
        out: '',
        err: expect.stringMatching(/would overwrite .*in\.xlsx, which is read\. Give another file name\.\n$/) as string,
      });
    expect(readFileSync(at('in.xlsx')).equals(before)).toBe(true);
  });

  it.each(['parts.csv', 'soft.csv', 'hard.csv', 'stock.csv'])('of cut is refused: %s', async (name) => {
    for (const option of ['--csv', '--dxf'])
      expect(await cut(option, at(name))).toMatchObject({
        code: 2,
        out: '',
        err: expect.stringContaining('would overwrite') as string,
      });
    expect([readFileSync(at('parts.csv'), 'utf8'), readFileSync(at('stock.csv'), 'utf8')]).toEqual([PARTS, STOCK]);
  });

  it('and one output that is another are refused', async () => {
    expect(await cut('--csv', at('both'), '--dxf', at('both'))).toMatchObject({
      code: 2,
      err: `--dxf ${at('both')} would overwrite what --csv writes. Give another file name.\n`,
    });
    expect(readdirSync(folder)).not.toContain('both');
  });

  it('recalc without -o saves into its own workbook, through a link too', async () => {
    expect((await tarebook('recalc', at('soft.xlsx'))).code).toBe(0);
    expect(lstatSync(at('soft.xlsx')).isSymbolicLink()).toBe(true);
  });
});
