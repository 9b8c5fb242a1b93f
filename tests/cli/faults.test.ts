/** The command killed, the disk full: the workbook is the old one or the new one, whole. */
import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COLLECT_SOONER } from '../../src/cli/open';
import { writeBytes } from '../../src/hosts/node/files';
import type { CellModel } from '../../src/sheet';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';

const LAUNCHER = fileURLToPath(new URL('../../src/cli/tarebook.mjs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'tarebook-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ROWS = 4000;
let stale: Uint8Array;

beforeAll(async () => {
  const cells = Array.from({ length: ROWS }, (_row, r): CellModel[] => [
    { value: r + 1 },
    { value: 0, formula: `A${r + 1}*2` },
  ]);
  stale = await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Parts', cells, tables: [] }] });
  // Builds what is missing, so that the kills below hit the command and not the build.
  expect(spawnSync(process.execPath, [LAUNCHER, 'eval', '=1+1'], { encoding: 'utf8' }).stdout).toBe('2\n');
});

describe('kill -9 during recalc', () => {
  it('leaves the old file or the new one', async () => {
    const path = join(folder, 'parts.xlsx');
    const seen = new Set<string>();
    for (let delay = 60; delay <= 900; delay += 70) {
      writeFileSync(path, stale);
      const child = spawn(process.execPath, [LAUNCHER, 'recalc', path], { stdio: 'ignore' });
      const timer = setTimeout(() => child.kill('SIGKILL'), delay);
      await new Promise((resolve) => child.once('close', resolve));
      clearTimeout(timer);
      const { cells } = readWorkbook(readFileSync(path)).sheets[0]!;
      expect(cells).toHaveLength(ROWS);
      const fresh = cells.filter((line) => line[1]!.value !== 0).length;
      expect([0, ROWS]).toContain(fresh);
      seen.add(fresh === 0 ? 'old' : 'new');
    }
    expect(seen.has('old')).toBe(true);
  });

  it(
    'in the middle of writing leaves the old file, and the next run is not disturbed',
    { timeout: 120_000 },
    async () => {
      // A file of its own that takes a while to write: what is killed is a write under way, not the time before it.
      const apart = mkdtempSync(join(folder, 'killed-'));
      const path = join(apart, 'long.xlsx');
      const cells = Array.from({ length: 20_000 }, (_row, r): CellModel[] => [
        { value: Math.sin(r) },
        { value: 0, formula: `A${r + 1}*${r}.125` },
      ]);
      const before = await writeWorkbook({ styles: [], names: [], sheets: [{ name: 'Parts', cells, tables: [] }] });
      writeFileSync(path, before);
      const isTemporary = (name: string | null): boolean => name?.endsWith('.tmp') ?? false;
      for (let round = 0; round < 2; round++) {
        const child = spawn(process.execPath, [LAUNCHER, 'recalc', path], { stdio: 'ignore' });
        const watcher = watch(apart, (_event, name) => isTemporary(name) && child.kill('SIGKILL'));
        const [, signal] = await new Promise<[unknown, unknown]>((resolve) =>
          child.once('close', (...how) => resolve(how)),
        );
        watcher.close();
        // A machine that is quicker than the watch has written the new file.
        const whole = readFileSync(path);
        if (signal === 'SIGKILL' && whole.equals(before)) continue;
        expect(readWorkbook(whole).sheets[0]!.cells.at(-1)![1]!.value).not.toBe(0);
        writeFileSync(path, before);
      }
      // What the killed ones left is fresh and may be another process's at work: it stays for an hour.
      const { status, stdout } = spawnSync(process.execPath, [LAUNCHER, 'recalc', path], { encoding: 'utf8' });
      expect({ status, stdout }).toEqual({ status: 0, stdout: `${path}: 19999 cells changed\n` });
    },
  );
});

describe('a file that is written', () => {
  it('keeps its mode, and a link stays a link', async () => {
    const target = join(folder, 'target.xlsx');
    const link = join(folder, 'link.xlsx');
    writeFileSync(target, 'old');
    chmodSync(target, 0o640);
    symlinkSync(target, link);
    await writeBytes(link, new Uint8Array([1, 2, 3]));
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(readFileSync(target)).toEqual(Buffer.from([1, 2, 3]));
    expect(statSync(target).mode & 0o777).toBe(0o640);
  });

  it('clears away what a killed write left long ago, and nothing else', async () => {
    const path = join(folder, 'clean.xlsx');
    const [old, fresh, other] = ['.clean.xlsx.00ff.tmp', '.clean.xlsx.11ee.tmp', '.clean.xlsx'].map((name) =>
      join(folder, name),
    ) as [string, string, string];
    for (const one of [old, fresh, other]) writeFileSync(one, 'left');
    utimesSync(old, new Date(0), new Date(0));
    utimesSync(other, new Date(0), new Date(0));
    await writeBytes(path, new Uint8Array([1]));
    expect([old, fresh, other].map((one) => existsSync(one))).toEqual([false, true, true]);
    rmSync(fresh);
  });

  it('stays as it was where the disk is full', () => {
    // A limit of the shell on the size of files stands for a disk with no room.
    const path = join(folder, 'full.xlsx');
    writeFileSync(path, stale);
    const big = `ulimit -f 8; trap '' XFSZ; exec "${process.execPath}" "${LAUNCHER}" recalc "${path}"`;
    const { status, stderr } = spawnSync('bash', ['-c', big], { encoding: 'utf8' });
    expect(status).toBe(2);
    expect(stderr).toMatch(/full\.xlsx (?:was not written|could not be written)/);
    expect(readFileSync(path)).toEqual(Buffer.from(stale));
    expect(readdirSync(folder).filter((name) => name.endsWith('.tmp') && name.includes('full'))).toEqual([]);
  });

  it.skipIf(process.getuid?.() === 0)('is refused where it may not be written', async () => {
    const path = join(folder, 'read-only.xlsx');
    writeFileSync(path, 'old');
    chmodSync(path, 0o444);
    await expect(writeBytes(path, new Uint8Array([1]))).rejects.toThrow(/no permission/);
    expect(readFileSync(path, 'utf8')).toBe('old');
  });
});

describe('the command', () => {
  it('sets no flag that this engine does not know', () => {
    const { status, stderr } = spawnSync(process.execPath, [COLLECT_SOONER, '-e', '0'], { encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, '']);
  });

  it('ends quietly when its reader has seen enough', () => {
    const { status, stderr } = spawnSync(
      'bash',
      ['-c', `set -o pipefail; "${process.execPath}" "${LAUNCHER}" functions | head -1`],
      { encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });
});
