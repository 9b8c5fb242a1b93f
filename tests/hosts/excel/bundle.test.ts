/** The functions bundle as it is delivered: small, pure, and at home in an engine that has nothing but the language. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { catalogue } from '../../../src/functions';

const root = new URL('../../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

beforeAll(() => {
  execFileSync(process.execPath, ['tools/build.mjs', 'functions'], { cwd: root, stdio: 'pipe' });
});

describe('the functions bundle', () => {
  it('is at most 60 kB gzipped', () => {
    expect(gzipSync(read('dist/functions/functions.js')).length).toBeLessThanOrEqual(60_000);
  });

  it('is made of the trade, the functions and their Excel side alone', () => {
    const { inputs } = JSON.parse(read('dist/.stamps/functions.json')) as { inputs: string[] };
    const strangers = inputs.filter((file) => !/^(src\/(core|functions|hosts\/excel)\/|package\.json$)/.test(file));
    expect(strangers).toEqual([]);
  });

  it('registers and computes with no window, no document, no timers and no network', () => {
    const handlers = new Map<string, (...args: unknown[]) => unknown>();
    const context = createContext({ CustomFunctions: { associate: (id: string, handler: (...args: unknown[]) => unknown) => handlers.set(id, handler) } });
    runInContext(read('dist/functions/functions.js'), context, { filename: 'functions.js' });
    expect([...handlers.keys()].sort()).toEqual(catalogue.map(({ name }) => name).sort());
    expect(JSON.stringify(handlers.get('AREA.RECT')!([[144], [12]], [[48]]))).toBe('[[6912],[576]]');
  });

  it('comes with the metadata of the same functions', () => {
    const { functions } = JSON.parse(read('dist/functions/functions.json')) as { functions: { id: string }[] };
    expect(functions.map(({ id }) => id)).toEqual(catalogue.map(({ name }) => name));
  });
});
