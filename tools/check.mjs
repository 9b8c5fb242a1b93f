/**
 * npm run check: format, types and lint, and the tests that a change touches: those that import a changed file,
 * however far off, or name it. Tests in a browser are left to npm test unless they are changed themselves.
 *
 *   npm run check              what differs from the last commit
 *   npm run check -- main      what differs from main
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { runNode, runTasks } from './children.mjs';
import { ensureInstalled, root } from './install.mjs';
import { format, selectors, types } from './lint.mjs';

/** Test time that a check takes on; the nearest to the change go first. */
const BUDGET_SECONDS = 25;
/** Where no run has said how long a test file takes. */
const USUAL_SECONDS = { inBrowser: 20, elsewhere: 1 };
const IN_A_BROWSER = /\/(?:pane-page|browser|bench-page|station-setup)(?:\.ts|')/;
const EVERYWHERE = new Set(['package-lock.json', 'tsconfig.json', 'tools/vitest.config.ts']);

const git = (...args) => execFileSync('git', args, { cwd: root, encoding: 'utf8' }).split('\n').filter(Boolean);
const read = (file) => readFileSync(`${root}${file}`, 'utf8');

function changedFiles(since) {
  const names = [
    ...git('diff', '--name-only', '--relative', since),
    ...git('ls-files', '--others', '--exclude-standard'),
  ];
  return [...new Set(names)];
}

const testFiles = () =>
  readdirSync(`${root}tests`, { recursive: true })
    .map((file) => `tests/${file.replaceAll('\\', '/')}`)
    .filter((file) => /\.test\.tsx?$/.test(file));

/** Which files each file imports, of this repository. */
async function importsOf(entryPoints) {
  const { build } = await import('esbuild');
  const { metafile } = await build({
    entryPoints,
    absWorkingDir: root,
    bundle: true,
    write: false,
    outdir: 'out',
    metafile: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    loader: { '.css': 'empty' },
    logLevel: 'silent',
  });
  return new Map(Object.entries(metafile.inputs).map(([file, { imports }]) => [file, imports.map(({ path }) => path)]));
}

/** Files that a file takes in, each with the number of steps to it. */
function reach(imports, from) {
  const steps = new Map([[from, 0]]);
  for (const [file, step] of steps)
    for (const next of imports.get(file) ?? []) if (!steps.has(next)) steps.set(next, step + 1);
  return steps;
}

/** Seconds that each test file took in the last run of npm test, if there was one. */
function lastSeconds() {
  const report = `${root}test-results/vitest.json`;
  if (!existsSync(report)) return new Map();
  const { testResults } = JSON.parse(readFileSync(report, 'utf8'));
  return new Map(
    testResults.map(({ name, startTime, endTime }) => [
      name.replaceAll('\\', '/').slice(root.length),
      (endTime - startTime) / 1000,
    ]),
  );
}

/** The test files that a change touches, the nearest first, and which of them are run now. */
async function touched(changed) {
  const tests = testFiles();
  const imports = await importsOf(tests);
  const names = changed.map((file) => basename(file)).filter((name) => !/^index\.tsx?$/.test(name));
  const found = tests.flatMap((test) => {
    const steps = reach(imports, test);
    const nearest = Math.min(...changed.flatMap((file) => steps.get(file) ?? []));
    const named = names.some((name) => read(test).includes(name));
    if (nearest === Infinity && !named) return [];
    const inBrowser = [...steps.keys()].some((file) => IN_A_BROWSER.test(`/${file}`));
    const distance = Math.min(nearest, named ? 1 : Infinity);
    return [{ test, inBrowser, skipped: inBrowser && !changed.includes(test), distance }];
  });
  const seconds = lastSeconds();
  let left = BUDGET_SECONDS;
  const [now, later] = [[], []];
  for (const { test, inBrowser, skipped } of found.sort((a, b) => a.distance - b.distance)) {
    const takes = seconds.get(test) ?? USUAL_SECONDS[inBrowser ? 'inBrowser' : 'elsewhere'];
    const fits = !skipped && (left >= takes || now.length === 0);
    (fits ? now : later).push(test);
    if (fits) left -= takes;
  }
  return { now, later };
}

await ensureInstalled();
const changed = changedFiles(process.argv[2] ?? 'HEAD');
const checks = runTasks([types, selectors, format], 2);
const { now, later } = await touched(changed);
if (!(await checks)) process.exit(1);
if (now.length > 0) {
  const { code } = await runNode([
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    'tools/vitest.config.ts',
    '--reporter=dot',
    ...now,
  ]);
  if (code !== 0) process.exit(code);
}
console.log(`${changed.length} changed files; ${now.length} test files touched by them have passed.`);
if (later.length > 0) console.log(`Left to npm test, in a browser or long: ${later.join(', ')}`);
const everywhere = changed.filter((file) => EVERYWHERE.has(file));
if (everywhere.length > 0) console.log(`${everywhere.join(', ')} bears on every test: run npm test.`);
