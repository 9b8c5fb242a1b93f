/** Format, types, lint, import directions, what nobody uses: everything that can be said of the code without running it. */
import { ensureInstalled, run } from './install.mjs';

await ensureInstalled();
const bin = (name) => `node_modules/${name}`;
run(process.execPath, [bin('prettier/bin/prettier.cjs'), '--check', '--log-level', 'warn', '--cache', '.']);
run(process.execPath, [bin('typescript/bin/tsc'), '-p', '.']);
run(process.execPath, [
  bin('eslint/bin/eslint.js'),
  '--config',
  'tools/eslint.config.mjs',
  '--max-warnings',
  '0',
  'src',
  'tests',
  'tools',
]);
run(process.execPath, [
  bin('dependency-cruiser/bin/dependency-cruise.mjs'),
  '--config',
  'tools/dependency-cruiser.cjs',
  'src',
  'tools',
  'tests',
]);
const knip = [bin('knip/bin/knip.js'), '--config', 'tools/knip.json', '--no-config-hints', '--no-progress'];
run(process.execPath, knip);
// Once more without the tests as users: what they alone take is marked @internal, or is not exported, or goes.
run(process.execPath, [...knip, '--production', '--include', 'exports,files']);
