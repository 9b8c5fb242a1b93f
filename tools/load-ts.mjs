/** Runs a TypeScript module of this repository from a plain Node script. */
import { createHash } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { isAbsolute, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ROOT = resolve(import.meta.dirname, '..');

/**
 * Bundles a TypeScript file with what it imports from src, and imports the bundle.
 * Packages stay outside. Returns the module and the absolute paths of the files that went into it.
 */
export async function loadTs(entry) {
  const path = isAbsolute(entry) ? entry : join(ROOT, entry);
  const result = await build({
    entryPoints: [path],
    absWorkingDir: ROOT,
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    packages: 'external',
    metafile: true,
    logLevel: 'silent',
  });
  const code = result.outputFiles[0].text;
  const folder = join(ROOT, 'node_modules', '.cache', 'load-ts');
  await mkdir(folder, { recursive: true });
  // Named by content: an unchanged module is imported once, a changed one anew.
  const file = join(folder, `${createHash('sha256').update(code).digest('hex').slice(0, 16)}.mjs`);
  await writeFile(file, code);
  return {
    module: await import(pathToFileURL(file).href),
    files: Object.keys(result.metafile.inputs).map((input) => join(ROOT, input)),
  };
}
