/**
 * npm test: installs what is missing, builds what the tests run, runs vitest and beside it the checks of types, lint
 * and import directions, and closes with vitest's summary and one plain line of counts.
 *
 * In CI (CI=true) the programs that some checks compare with are installed with apt, and the run fails
 * where that cannot be done. Elsewhere the tests that need a missing program are skipped and say so.
 *
 *   npm test -- tests/core                 what vitest takes, after the builds and checks
 *   npm test -- --tests-alone tests/core   without them
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { runNode, runTasks } from './children.mjs';
import { ensureInstalled, root, run } from './install.mjs';
import { lintTasks } from './lint.mjs';

/** The programs, how to see that each is there, and the Debian package that brings it; an optional one has a stand-in. */
const OUTSIDE = JSON.parse(readFileSync(`${root}tools/outside.json`, 'utf8'));

const has = ({ probe: [command, ...args] }) => spawnSync(command, args, { stdio: 'ignore' }).status === 0;

function installOutside() {
  const missing = OUTSIDE.filter((program) => !has(program));
  const needed = missing.filter(({ optional }) => !optional);
  if (process.env.CI !== 'true') {
    for (const { name } of needed) console.log(`${name} is not here: the tests that need it are skipped.`);
    return;
  }
  if (missing.length === 0) return;
  const options = { env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
  const install = (programs) => ['install', '-y', '-qq', '--no-install-recommends', ...programs.map(({ apt }) => apt)];
  run('apt-get', ['update', '-qq'], options);
  if (needed.length > 0) run('apt-get', install(needed), options);
  const rest = missing.filter(({ optional }) => optional);
  if (rest.length > 0) spawnSync('apt-get', install(rest), { ...options, stdio: 'inherit' });
  const still = needed.filter((program) => !has(program));
  if (still.length > 0) {
    console.error(`Still missing after installing: ${still.map(({ name }) => name).join(', ')}`);
    process.exit(1);
  }
}

await ensureInstalled();
installOutside();
const builds = ['pane', 'bench', 'cli', 'functions'].map((target) => ({
  name: `build of ${target}`,
  args: ['tools/build.mjs', target],
}));
const given = process.argv.slice(2);
const testsAlone = given[0] === '--tests-alone';
const all = given.length === 0;
const before = testsAlone ? [] : all ? builds : [...builds, ...lintTasks];
if (!(await runTasks(before, availableParallelism()))) process.exit(1);
// The tests wait now and then, for a page or another program: all checks fit into that. One that fails ends them.
const checks = all ? runTasks(lintTasks, 1, { behind: true }) : true;

mkdirSync(`${root}test-results`, { recursive: true });
const report = process.env.TEST_REPORT ?? `${root}test-results/vitest.json`;
rmSync(report, { force: true });
const vitest = await runNode(
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    'tools/vitest.config.ts',
    '--reporter=dot',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...(testsAlone ? given.slice(1) : given),
  ],
  { env: process.stdout.isTTY ? {} : { NO_COLOR: '1' } },
);
if (!(await checks)) process.exit(1);
if (!existsSync(report)) process.exit(vitest.code || 1);
const counts = JSON.parse(readFileSync(report, 'utf8'));
const skipped = counts.numPendingTests + counts.numTodoTests;
console.log(
  `${counts.numPassedTests} passed, ${counts.numFailedTests} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
);
process.exit(vitest.code);
