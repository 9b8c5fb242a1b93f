/** A package taken apart without the code under test. */
import { readFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';

export const fixture = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`./fixtures/${name}.xlsx`, import.meta.url)));

/** Texts of all parts by name. */
export function partsOf(bytes: Uint8Array): Map<string, string> {
  return new Map(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content, true)]));
}

export const partOf = (bytes: Uint8Array, name: string): string => new TextDecoder().decode(unzipSync(bytes)[name]);

/** Names of the parts that differ, that came and that went. */
export function changedParts(before: Uint8Array, after: Uint8Array): string[] {
  const old = partsOf(before);
  const now = partsOf(after);
  return [...new Set([...old.keys(), ...now.keys()])].filter((name) => old.get(name) !== now.get(name)).sort();
}
