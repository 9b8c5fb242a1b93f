/** The functions bundle as it is delivered: small, pure, and at home in an engine that has nothing but the language. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { Linter } from 'eslint';
import { beforeAll, describe, expect, it } from 'vitest';
import { call, catalogue } from '../../../src/functions';
import { CellError } from '../../../src/sheet';
import { functionsMetadata } from '../../../src/hosts/excel/catalogue-files';

const root = new URL('../../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

type Handlers = Map<string, (...args: unknown[]) => unknown>;

/** What ES2016 does not have. Source: ECMA-262, editions 2017 to 2025, and ECMA-402. */
const LATER = `
  delete globalThis.Intl;
  const later = {
    Array: ['at', 'flat', 'flatMap', 'findLast', 'findLastIndex', 'toReversed', 'toSorted', 'toSpliced', 'with'],
    String: ['at', 'padStart', 'padEnd', 'trimStart', 'trimEnd', 'trimLeft', 'trimRight', 'replaceAll', 'matchAll', 'isWellFormed', 'toWellFormed'],
    Map: [], Set: ['union', 'intersection', 'difference', 'isSubsetOf', 'isSupersetOf', 'isDisjointFrom', 'symmetricDifference'],
    Promise: ['finally'], Float64Array: ['at', 'findLast', 'findLastIndex', 'toSorted', 'toReversed', 'with'],
  };
  for (const [name, members] of Object.entries(later)) for (const member of members) delete globalThis[name].prototype[member];
  const bare = (own, names) => { for (const name of names) delete own[name]; };
  bare(Promise, ['allSettled', 'any', 'try', 'withResolvers']);
  bare(Map, ['groupBy']); bare(Array, ['fromAsync']);
  if (globalThis.Iterator) for (const name of Object.getOwnPropertyNames(Iterator.prototype)) if (name !== 'constructor') delete Iterator.prototype[name];
  for (const name of ['Atomics', 'SharedArrayBuffer', 'BigInt', 'WeakRef', 'FinalizationRegistry', 'AggregateError', 'Iterator', 'WebAssembly']) delete globalThis[name];
  bare(Object, ['entries', 'values', 'fromEntries', 'hasOwn', 'groupBy', 'getOwnPropertyDescriptors']);
  Number.prototype.toLocaleString = String.prototype.localeCompare = String.prototype.normalize = () => { throw new TypeError('this engine knows no languages'); };
  delete globalThis.globalThis;
`;

/** Runs the bundle where nothing is defined but the language of 2016 and Excel's registration. */
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
  const context = createContext({ CustomFunctions });
  runInContext(LATER, context);
  runInContext(read('dist/functions/functions.js'), context, { filename: 'functions.js' });
  return handlers;
}

beforeAll(() => {
  execFileSync(process.execPath, ['tools/build.mjs', 'functions'], { cwd: root, stdio: 'pipe' });
});

describe('the functions bundle', () => {
  it('is at most 75 kB gzipped', () => {
    expect(gzipSync(read('dist/functions/functions.js')).length).toBeLessThanOrEqual(75_000);
  });

  it('is in the language of 2016, also in patterns that are made as it runs', () => {
    const code = read('dist/functions/functions.js');
    const parsed = (text: string) =>
      new Linter().verify(text, [{ languageOptions: { ecmaVersion: 2016, sourceType: 'script' } }]);
    expect(parsed('var a = { ...b };')).toMatchObject([{ fatal: true }]);
    expect(parsed(code).filter(({ fatal }) => fatal)).toEqual([]);
    // A parser does not look into texts: classes of characters, looking back, named groups, the flags s, d and v.
    expect(code).not.toMatch(/\\p\{|\(\?<|RegExp\([^)]*,\s*["'`][gimuy]*[sdv]/);
    expect(code).not.toMatch(/\bIntl\b|\bglobalThis\b|toLocale|localeCompare/);
  });

  it('is made of the trade, the functions and their Excel side, with decimals for money and no other package', () => {
    const { inputs, packages } = JSON.parse(read('dist/.stamps/functions.json')) as {
      inputs: string[];
      packages: string[];
    };
    expect(
      inputs.filter(
        (file) =>
          file.startsWith('src/') &&
          !/^src\/(?:(?:core|functions|hosts\/excel)\/|sheet\/(?:cell|address|formula\/namespace)\.ts$)/.test(file),
      ),
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

  it.each([
    ['desktop', 0],
    ['web', null],
  ])('takes the blank cells of the %s in every example, with no fault of its own', (_where, blank) => {
    const handlers = inBareEngine();
    const asBlank = (cell: unknown): unknown => (cell === null || cell === '' ? blank : cell);
    for (const definition of catalogue) {
      for (const { args } of definition.examples) {
        const given = args.map((argument) =>
          Array.isArray(argument)
            ? [...argument, argument[0]!.map(() => null)].map((row) => row.map(asBlank))
            : asBlank(argument),
        );
        let got: unknown;
        try {
          got = handlers.get(definition.name)!(...given);
        } catch (error) {
          got = error;
        }
        const said = JSON.stringify(got, (_key, value: unknown) =>
          value instanceof Error ? `${value.name} ${value.message}` : value,
        );
        expect(`${definition.name} ${said}`).not.toMatch(
          /A fault in Tarebook|TypeError|ReferenceError|is not a function/,
        );
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
