/** The notices of others' work in a release, made from the packages that are in its files. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { licenceOf } from '../deps/licence';
import { installed, readManifest } from '../deps/tree';

/** Not found in any bundle, since they are copied as they are. */
const COPIED = ['@microsoft/office-js', 'highs'];

const NOTICE = /^(?:licen[cs]e|copying|notice)(?:[.-].*)?$/i;

/** Names of the packages of which something is in the built targets. */
export function shippedPackages(root: string): string[] {
  const stamps = join(root, 'dist', '.stamps');
  const names = readdirSync(stamps)
    .filter((name) => name.endsWith('.json'))
    .flatMap((name) => (JSON.parse(readFileSync(join(stamps, name), 'utf8')) as { packages: string[] }).packages);
  return [...new Set([...names, ...COPIED])].sort();
}

/** The text of THIRD-PARTY-NOTICES.txt; throws where a package's licence is not known. */
export function notices(root: string): string {
  const parts = shippedPackages(root).map((name) => {
    const folder = installed(name, root, root);
    if (!folder) throw new Error(`${name} is in a bundle and not installed: run npm ci, then build anew`);
    const manifest = readManifest(folder);
    const texts = readdirSync(folder)
      .filter((file) => NOTICE.test(file))
      .map((file) => readFileSync(join(folder, file), 'utf8').trim());
    const licence = licenceOf(folder, manifest);
    if (texts.length === 0 && !licence) throw new Error(`${name} says nowhere under which licence it is`);
    const text = texts.length > 0 ? texts.join('\n\n') : `Licence: ${licence}. The package comes with no text of it.`;
    return `${name} ${manifest.version}${licence ? ` (${licence})` : ''}\n\n${text}\n`;
  });
  const line = `\n${'-'.repeat(80)}\n\n`;
  return `Tarebook is under the MIT licence (LICENSE). It contains work of others:\n${line}${parts.join(line)}`;
}
