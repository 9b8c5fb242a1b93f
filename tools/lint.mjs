/** Format, types, lint, import directions, what nobody uses: everything that can be said of the code without running it. */
import { availableParallelism } from 'node:os';
import { readdirSync, readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { runTasks } from './children.mjs';
import { ensureInstalled, root } from './install.mjs';
import { HAS_WORDS, LANGUAGE_PLACES } from './selectors.mjs';

const PLACES = ['src', 'tests', 'tools'];
const bin = (name) => `node_modules/${name}`;
const knip = [bin('knip/bin/knip.js'), '--config', 'tools/knip.json', '--no-config-hints', '--no-progress'];

/** The files of a place that a selector for all files may match. */
const filesWithWords = (place) =>
  readdirSync(`${root}${place}`, { recursive: true })
    .map((file) => `${place}/${file.replaceAll('\\', '/')}`)
    .filter((file) => /\.(?:[cm]?js|tsx?)$/.test(file) && !LANGUAGE_PLACES.some((one) => file.startsWith(`${one}/`)))
    .filter((file) => HAS_WORDS.test(readFileSync(`${root}${file}`, 'utf8')));

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
/** Rules that are a selector. */
export const selectors = {
  name: 'texts and paths',
  args: [
    bin('eslint/bin/eslint.js'),
    '--config',
    'tools/eslint.config.mjs',
    '--max-warnings',
    '0',
    ...LANGUAGE_PLACES,
    ...PLACES.flatMap(filesWithWords),
  ],
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
