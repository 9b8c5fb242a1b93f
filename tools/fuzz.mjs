/**
 * npm run fuzz: the property tests with many more cases than npm test, from a fresh seed that is printed.
 *
 *   npm run fuzz                      120,000 calls of functions, and every other property in proportion
 *   npm run fuzz -- --cases 1000000   more of them
 *   npm run fuzz -- --seed 12345      the same cases again
 */
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { ensureInstalled, root } from './install.mjs';

const CASES = 120_000;

function wholeNumber(name, given) {
  const value = Number(given);
  if (Number.isInteger(value) && value > 0) return value;
  console.error(`--${name}: got "${given}"; takes a whole number above 0`);
  process.exit(2);
}

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: String(CASES) },
    seed: { type: 'string', default: String(randomInt(1, 2 ** 31)) },
  },
});
const [cases, seed] = [wholeNumber('cases', values.cases), wholeNumber('seed', values.seed)];
const again = `npm run fuzz -- --cases ${cases} --seed ${seed}`;

/** Every test file that invents its cases. */
const files = readdirSync(`${root}tests`, { recursive: true })
  .filter((file) => /\.test\.tsx?$/.test(file))
  .map((file) => `tests/${file.replaceAll('\\', '/')}`)
  .filter((file) => file.startsWith('tests/property/') || /from 'fast-check'/.test(readFileSync(root + file, 'utf8')));

await ensureInstalled();
console.log(`Seed ${seed}. The same again: ${again}`);
const { status } = spawnSync(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    'tools/vitest.config.ts',
    '--reporter=dot',
    `--testTimeout=${30_000 + cases * 10}`,
    ...files,
  ],
  { cwd: root, stdio: 'inherit', env: { ...process.env, FUZZ_CASES: String(cases), FUZZ_SEED: String(seed) } },
);
if (status !== 0) console.error(`Found something. The same again: ${again}`);
process.exit(status ?? 1);
