/** Format, types, lint, import directions, what nobody uses: everything that can be said of the code without running it. */
import { availableParallelism } from 'node:os';
import { pathToFileURL } from 'node:url';
import { runTasks } from './children.mjs';
import { ensureInstalled } from './install.mjs';

const PLACES = ['src', 'tests', 'tools'];
const bin = (name) => `node_modules/${name}`;
const eslint = [bin('eslint/bin/eslint.js'), '--config', 'tools/eslint.config.mjs', '--max-warnings', '0'];
const knip = [bin('knip/bin/knip.js'), '--config', 'tools/knip.json', '--no-config-hints', '--no-progress'];

/** Types are checked anew only in what a change bears on: the compiler keeps what it knew. */
export const types = {
  name: 'types',
  args: [bin('typescript/bin/tsc'), '-p', '.', '--incremental', '--tsBuildInfoFile', bin('.cache/types.tsbuildinfo')],
};
export const format = {
  name: 'format',
  args: [bin('prettier/bin/prettier.cjs'), '--check', '--log-level', 'warn', '--cache', '.'],
};
/** Lint of what has changed alone: faster, and blind to what a change bears on elsewhere. */
export const changedLint = {
  name: 'lint',
  args: [...eslint, '--cache', '--cache-strategy', 'content', '--cache-location', bin('.cache/eslint'), ...PLACES],
};

/** The longest first, so that they do not end the wait for all. */
export const lintTasks = [
  types,
  { name: 'lint', args: [...eslint, ...PLACES] },
  {
    name: 'import directions',
    args: [bin('dependency-cruiser/bin/dependency-cruise.mjs'), '--config', 'tools/dependency-cruiser.cjs', ...PLACES],
  },
  { name: 'unused', args: knip },
  // Once more without the tests as users: what they alone take is marked @internal, or is not exported, or goes.
  { name: 'unused but by tests', args: [...knip, '--production', '--include', 'exports,files'] },
  format,
];

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  await ensureInstalled();
  process.exitCode = (await runTasks(lintTasks, availableParallelism())) ? 0 : 1;
}
