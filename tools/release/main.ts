/**
 * npm run release -- --host URL [--out FOLDER] [--office local|cdn] [--no-deps]: everything that is given to others, in
 * dist/release/<version>: a static folder and its zip, the command as a package, notices and checksums.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { zipSync } from 'fflate';
import { checksums, filesBelow, writeInto } from './files';
import { notices } from './notices';
import { packCommand } from './package';
import { writeSite, type Release } from './site';

const root = process.cwd();

/** A plain script, so that a package need not be built to write a manifest. */
async function manifestWriter(): Promise<Release['manifestFor']> {
  const tool = (await import(pathToFileURL(join(root, 'tools', 'manifest.mjs')).href)) as {
    manifestFor(host: string, options: { support: string }): Promise<string>;
  };
  return (host, support) => tool.manifestFor(host, { support });
}

const node = (...args: string[]): number =>
  spawnSync(process.execPath, args, { cwd: root, stdio: 'inherit' }).status ?? 1;

async function release(): Promise<number> {
  const { values } = parseArgs({
    options: {
      host: { type: 'string' },
      out: { type: 'string' },
      /** Where the pages have Office.js from; the marketplace wants it from Microsoft. */
      office: { type: 'string', default: 'local' },
      'no-deps': { type: 'boolean', default: false },
    },
  });
  if (!values.host)
    throw new Error('say where the folder will be served: npm run release -- --host https://your.host/tarebook');
  const host = values.host.replace(/\/+$/, '');
  const manifestFor = await manifestWriter();
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  // An address that cannot be one is refused before anything is built.
  await manifestFor(host, `${host}/support.html`);
  if (node('tools/build.mjs', 'all', '--office', values.office) !== 0) return 1;

  const out = resolve(values.out ?? join('dist', 'release'), version);
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const texts = notices(root);
  const site = join(out, 'site');
  await writeSite(site, { root, host, version, notices: texts, manifestFor });
  const zip = `tarebook-${version}-site.zip`;
  const inside = filesBelow(site);
  writeInto(
    join(out, zip),
    // One time for all, so that the same files make the same archive.
    zipSync(Object.fromEntries(inside.map((name) => [name, readFileSync(join(site, name))])), {
      mtime: new Date('2020-01-01T00:00:00'),
    }),
  );
  const tarball = packCommand(root, out, texts);
  for (const name of ['LICENSE', 'CHANGELOG.md']) cpSync(join(root, name), join(out, name));
  writeInto(join(out, 'THIRD-PARTY-NOTICES.txt'), texts);
  const listed = ['CHANGELOG.md', 'LICENSE', 'THIRD-PARTY-NOTICES.txt', zip, tarball].sort();
  writeInto(join(out, 'SHA256SUMS'), checksums(out, [...listed, ...inside.map((name) => `site/${name}`)]));

  const size = (name: string): string => `${(statSync(join(out, name)).size / 1e6).toFixed(1)} MB`;
  console.log(`${out}
  site/          ${inside.length} files for ${host}; site/hosting.html says how to put them there
  ${zip}  ${size(zip)}
  ${tarball}  ${size(tarball)}`);
  return values['no-deps'] ? 0 : node('tools/run-ts.mjs', 'tools/deps/main.ts');
}

try {
  process.exitCode = await release();
} catch (error) {
  console.error(`release: ${(error as Error).message}`);
  process.exitCode = 1;
}
