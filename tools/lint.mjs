/** Format, types, lint, import directions, what nobody uses: everything that can be said of the code without running it. */
import { availableParallelism } from 'node:os';
import { pathToFileURL } from 'node:url';
import { runTasks } from './children.mjs';
import { ensureInstalled } from './install.mjs';

const PLACES = ['src', 'tests', 'tools'];
const bin = (name) => `node_modules/${name}`;
const knip = [bin('knip/bin/knip.js'), '--config', 'tools/knip.json', '--no-config-hints', '--no-progress'];
const cached = (name, args) => [
  ...args,
  '--cache',
  '--cache-strategy',
  'content',
  '--cache-location',
  bin(`.cache/${name}`),
];

/** Types and every rule that needs them, in one pass. */
export const types = {
  name: 'types and lint',
  args: [
    bin('oxlint/bin/oxlint'),
    '--type-aware',
    '--type-check',
    '--report-unused-disable-directives',
    '--deny-warnings',
    ...PLACES,
  ],
};
/** Rules that are a selector. Looked at alone where a file has changed. */
export const selectors = {
  name: 'texts and paths',
  args: cached('eslint', [
    bin('eslint/bin/eslint.js'),
    '--config',
    'tools/eslint.config.mjs',
    '--max-warnings',
    '0',
    ...PLACES,
  ]),
};
export const format = {
  name: 'format',
  args: [bin('prettier/bin/prettier.cjs'), '--check', '--log-level', 'warn', '--cache', '.'],
};
/** The longest first, so that they do not end the wait for all. */
export const lintTasks = [
  types,
  selectors,
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
