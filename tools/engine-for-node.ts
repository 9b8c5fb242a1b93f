/**
 * The embedded spreadsheet engine as Node can load it, for the tests: its packages import named exports from CommonJS
 * ones, which Node refuses. esbuild makes modules of them in half a second, which Node then loads as they are; to have
 * vitest transform them took it four seconds, and each of its workers three more to load them.
 */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** All that the engine without a face is asked for by; what they have in common is loaded once. What comes to be asked for besides stands here, too. */
const ENTRIES = [
  '@univerjs/core',
  '@univerjs/core/facade',
  '@univerjs/data-validation',
  '@univerjs/engine-formula',
  '@univerjs/engine-formula/facade',
  '@univerjs/sheets',
  '@univerjs/sheets/facade',
  '@univerjs/sheets-data-validation',
  '@univerjs/sheets-formula',
  '@univerjs/sheets-formula/facade',
];

const fileOf = (entry: string): string => entry.replace('@', '').replaceAll('/', '.');

/** The engine is bundled once for the packages that are installed. Resolves with where each of them is, for vite. */
export async function engineForNode(): Promise<{ find: RegExp; replacement: string }[]> {
  const hash = createHash('sha256');
  for (const file of [`${root}package-lock.json`, fileURLToPath(import.meta.url)]) hash.update(readFileSync(file));
  const folder = `${root}node_modules/.cache/engine-${hash.digest('hex').slice(0, 16)}`;
  if (!existsSync(folder)) await bundleInto(folder);
  return ENTRIES.map((entry) => ({ find: new RegExp(`^${entry}$`), replacement: `${folder}/${fileOf(entry)}.mjs` }));
}

/** It is there whole or not at all, for runs that start side by side. */
async function bundleInto(folder: string): Promise<void> {
  const making = `${folder}.${process.pid}`;
  await build({
    entryPoints: ENTRIES.map((entry) => ({ in: entry, out: fileOf(entry) })),
    absWorkingDir: root,
    outdir: making,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'error',
  });
  try {
    renameSync(making, folder);
  } catch (error) {
    rmSync(making, { recursive: true });
    // Another run was faster.
    if (!existsSync(folder)) throw error;
  }
}
