/** The packages that are installed for a runtime dependency, as Node finds them. */
import { existsSync, lstatSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { licenceOf, type Manifest } from './licence';

export interface Package {
  readonly name: string;
  readonly version: string;
  /** An SPDX expression; undefined when neither package.json nor a licence file tells one. */
  readonly licence: string | undefined;
  /** Bytes of its own files, without the packages nested in it. */
  readonly size: number;
  /** The folders of the packages that it needs. */
  readonly needs: readonly string[];
}

/** Packages by their folder: one name may be installed twice, in two versions. */
export type Tree = ReadonlyMap<string, Package>;

export const readManifest = (folder: string): Manifest =>
  JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;

/** The folder of a package as a file in `from` would import it, looked for up to `root`; undefined when it is not installed. */
export function installed(name: string, from: string, root: string): string | undefined {
  for (let folder = from; ; folder = dirname(folder)) {
    const place = join(folder, 'node_modules', name);
    if (existsSync(join(place, 'package.json'))) return place;
    if (folder === root || folder === dirname(folder)) return undefined;
  }
}

function sizeOf(folder: string): number {
  let bytes = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (!entry.isDirectory()) bytes += lstatSync(path).size;
    else if (entry.name !== 'node_modules') bytes += sizeOf(path);
  }
  return bytes;
}

/** Every package that the named ones bring along, themselves among them. What is not installed is left out. */
export function readTree(root: string, names: readonly string[]): Tree {
  const tree = new Map<string, Package>();
  const visit = (folder: string): void => {
    if (tree.has(folder)) return;
    const manifest = readManifest(folder);
    const wanted = Object.keys({
      ...manifest.dependencies,
      ...manifest.optionalDependencies,
      ...manifest.peerDependencies,
    });
    const needs = wanted.map((name) => installed(name, folder, root)).filter((place) => place !== undefined);
    tree.set(folder, {
      name: manifest.name ?? folder,
      version: manifest.version ?? '',
      licence: licenceOf(folder, manifest),
      size: sizeOf(folder),
      needs,
    });
    needs.forEach(visit);
  };
  for (const name of names) {
    const folder = installed(name, root, root);
    if (folder !== undefined) visit(folder);
  }
  return tree;
}

/** What one package brings along, without itself. */
export function broughtBy(tree: Tree, folder: string): readonly Package[] {
  const seen = new Set([folder]);
  const queue = [folder];
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    for (const need of tree.get(next)?.needs ?? []) {
      if (seen.has(need)) continue;
      seen.add(need);
      queue.push(need);
    }
  }
  seen.delete(folder);
  return [...seen].map((place) => tree.get(place)!);
}
