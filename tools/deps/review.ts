/** What is to be said of the runtime dependencies, and what is to be mended. */
import { isPermissive, PERMISSIVE } from './licence';
import { broughtBy, installed, readManifest, readTree } from './tree';
import type { Package } from './tree';

export type Reasons = Readonly<Record<string, string>>;

export interface Row {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  /** Bytes. */
  readonly size: number;
  readonly brings: { readonly packages: number; readonly size: number };
  readonly reason: string;
}

export interface Review {
  readonly rows: readonly Row[];
  /** Every package of the runtime tree, each once. */
  readonly total: { readonly packages: number; readonly size: number };
  /** A line for each thing to mend; empty when all is well. */
  readonly mend: readonly string[];
}

const sum = (packages: Iterable<Package>): number => [...packages].reduce((bytes, { size }) => bytes + size, 0);

/** Reviews the dependencies of the package.json in `root` against their reasons and what is installed there. */
export function review(root: string, reasons: Reasons): Review {
  const names = Object.keys(readManifest(root).dependencies ?? {});
  const tree = readTree(root, names);
  const mend: string[] = [];
  const rows: Row[] = [];
  for (const name of names) {
    const reason = (reasons[name] ?? '').trim();
    if (reason === '')
      mend.push(`${name} has no reason: say in tools/deps/reasons.json what it is for, or remove it from package.json`);
    const folder = installed(name, root, root);
    if (folder === undefined) {
      mend.push(`${name} is not installed: run npm ci`);
      continue;
    }
    const { version, licence, size } = tree.get(folder)!;
    const brought = broughtBy(tree, folder);
    rows.push({
      name,
      version,
      licence: licence ?? 'none told',
      size,
      brings: { packages: brought.length, size: sum(brought) },
      reason,
    });
  }
  for (const name of Object.keys(reasons)) {
    if (!names.includes(name))
      mend.push(`${name} has a reason but is no dependency: remove it from tools/deps/reasons.json`);
  }
  for (const { name, version, licence } of tree.values()) {
    if (isPermissive(licence)) continue;
    mend.push(
      `${name} ${version} has the licence ${licence ?? '(none told)'}, which is none of ${PERMISSIVE.join(', ')}: replace what brings it along`,
    );
  }
  return { rows, total: { packages: tree.size, size: sum(tree.values()) }, mend };
}
