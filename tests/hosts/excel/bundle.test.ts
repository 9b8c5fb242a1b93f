/** The functions bundle as it is delivered: small, pure, and at home in an engine that has nothing but the language. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { call, catalogue } from '../../../src/functions';
import { CellError } from '../../../src/sheet';
import { functionsMetadata } from '../../../src/hosts/excel/metadata';

const root = new URL('../../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

type Handlers = Map<string, (...args: unknown[]) => unknown>;

/** Runs the bundle where nothing is defined but the language and Excel's registration. */
function inBareEngine(): Handlers {
  const handlers: Handlers = new Map();
  class RuntimeError extends Error {
    constructor(
      readonly code: string,
      message?: string,
    ) {
      super(message);
    }
  }
  const CustomFunctions = {
    associate: (id: string, handler: (...args: unknown[]) => unknown) => handlers.set(id, handler),
    Error: RuntimeError,
  };
  runInContext(read('dist/functions/functions.js'), createContext({ CustomFunctions }), { filename: 'functions.js' });
  return handlers;
}

beforeAll(() => {
  execFileSync(process.execPath, ['tools/build.mjs', 'functions'], { cwd: root, stdio: 'pipe' });
});

describe('the functions bundle', () => {
  it('is at most 60 kB gzipped', () => {
    expect(gzipSync(read('dist/functions/functions.js')).length).toBeLessThanOrEqual(60_000);
  });

  it('is made of the trade, the functions and their Excel side, with decimals for money and no other package', () => {
    const { inputs, packages } = JSON.parse(read('dist/.stamps/functions.json')) as {
      inputs: string[];
      packages: string[];
    };
    expect(
      inputs.filter((file) => file.startsWith('src/') && !/^src\/(core|functions|hosts\/excel)\//.test(file)),
    ).toEqual([]);
    expect(packages).toEqual(['decimal.js']);
  });

  it('registers with no window, no document, no timers and no network', () => {
    expect([...inBareEngine().keys()].sort()).toEqual(catalogue.map(({ name }) => name).sort());
  });

  it('answers every example as the catalogue does', () => {
    const handlers = inBareEngine();
    for (const definition of catalogue) {
      for (const { args } of definition.examples) {
        const direct = call(definition, args);
        if (direct instanceof CellError || args.some((argument) => argument instanceof CellError)) continue;
        const wanted = (Array.isArray(direct) ? direct : [[direct]]).map((row) =>
          row.map((cell) => (cell instanceof CellError ? cell.code : (cell ?? ''))),
        );
        const got = handlers.get(definition.name)!(...args) as unknown[][];
        expect(
          got.map((row) => row.map((cell) => (cell as { code?: string } | null)?.code ?? cell)),
          definition.name,
        ).toEqual(wanted);
      }
    }
  });

  it('comes with the metadata of the same functions', () => {
    const { functions } = JSON.parse(read('dist/functions/functions.json')) as { functions: { id: string }[] };
    expect(functions.map(({ id }) => id)).toEqual(
      functionsMetadata('https://localhost:3000').functions.map(({ id }) => id),
    );
  });
});

describe('the build', () => {
  const build = (...args: string[]) =>
    spawnSync(process.execPath, ['tools/build.mjs', ...args], { cwd: root, encoding: 'utf8' });

  it('leaves what has not changed as it is', () => {
    expect(build('functions').stdout).toMatch(/^functions +unchanged .* gzip +[\d.]+ kB /);
  });

  it('builds anew what was taken away', () => {
    // A file that no other test reads meanwhile.
    rmSync(new URL('dist/functions/functions.js.LICENSE.txt', root));
    expect(build('functions').stdout).toMatch(/^functions +built /);
    expect(read('dist/functions/functions.js.LICENSE.txt')).toContain('decimal.js');
  });

  it('names the targets where it is asked for another', () => {
    const { status, stderr } = build('sheet');
    expect([status, stderr.trim()]).toEqual([
      2,
      'build: no target "sheet"; there are functions, pane, bench, cli and all',
    ]);
  });
});
