/** Runs a TypeScript script of the project: node tools/run-ts.mjs tools/samples/main.ts [arguments] */
import { mkdirSync } from 'node:fs';
import { basename } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureInstalled, root } from './install.mjs';

await ensureInstalled();
const { build } = await import('esbuild');
const [script, ...rest] = process.argv.slice(2);
if (!script) {
  console.error('usage: node tools/run-ts.mjs SCRIPT.ts [arguments]');
  process.exit(2);
}
const folder = `${root}node_modules/.cache/run-ts`;
mkdirSync(folder, { recursive: true });
const outfile = `${folder}/${script.replace(/[\\/]/g, '-').replace(/\.tsx?$/, '')}.mjs`;
await build({
  entryPoints: [script],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  logLevel: 'warning',
  sourcemap: 'inline',
  // Packages that load files beside themselves stay outside the bundle.
  external: [
    '@ironcalc/wasm',
    'typescript',
    'highs',
    'manifold-3d',
    'playwright-core',
    'maxrects-packer',
    'binpackingjs',
  ],
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});
process.argv = [process.argv[0], basename(script), ...rest];
await import(pathToFileURL(outfile).href);
