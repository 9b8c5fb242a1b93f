/** Small work on files that the steps of a release share. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';

/** Every file below a folder, by its path from there with "/" between, in order. */
export function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

export function writeInto(file: string, text: string | Uint8Array): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A line for each file, as `sha256sum --check` reads them. */
export const checksums = (folder: string, names: readonly string[]): string =>
  names.map((name) => `${sha256(readFileSync(join(folder, name)))}  ${name}\n`).join('');
