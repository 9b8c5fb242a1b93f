/** The static folder: add-in, bench, reference, and the pages that a builder reads. */
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { catalogueFiles } from '../../src/hosts/excel/catalogue-files';
import { makeApp } from './app';
import { writeInto } from './files';
import { pages } from './pages';

export interface Release {
  readonly root: string;
  /** Where the folder will be served, an https address without a closing slash. */
  readonly host: string;
  readonly version: string;
  readonly notices: string;
  /** The manifest's text for an add-in served from `host`, with the address of its support page. */
  readonly manifestFor: (host: string, support: string) => Promise<string>;
}

/** Writes the static folder. The add-in lies in a folder of its version, so that an open pane keeps its own functions. */
export async function writeSite(site: string, release: Release): Promise<void> {
  const { root, host, version } = release;
  const built = (name: string): string => join(root, 'dist', name);
  const ofVersion = join(site, version);
  cpSync(built('pane'), join(ofVersion, 'pane'), { recursive: true });
  cpSync(built('functions'), join(ofVersion, 'functions'), { recursive: true });
  // The help links of the functions lead to where they are served.
  for (const [name, text] of Object.entries(catalogueFiles(`${host}/${version}`)))
    writeInto(join(ofVersion, 'functions', name), text);
  // The pane leads there who opens it outside of Excel.
  writeInto(join(ofVersion, 'bench', 'index.html'), sentOn('../../bench/'));

  const bench = join(site, 'bench');
  cpSync(built('bench'), bench, { recursive: true });
  cpSync(join(root, 'sample-workbooks'), join(bench, 'samples'), { recursive: true });
  makeApp(bench, join(root, 'manifest', 'icons'));

  writeInto(join(site, 'manifest.xml'), await release.manifestFor(`${host}/${version}`, `${host}/support.html`));
  writeInto(join(site, 'icon.svg'), readFileSync(join(root, 'manifest', 'icons', 'icon.svg')));
  for (const [name, html] of Object.entries(pages({ host, version }))) writeInto(join(site, name), html);
  for (const name of ['LICENSE', 'CHANGELOG.md'])
    cpSync(join(root, name), join(site, `${name.replace('.md', '')}.txt`));
  writeInto(join(site, 'THIRD-PARTY-NOTICES.txt'), release.notices);
}

const sentOn = (to: string): string =>
  `<!doctype html><html lang="en"><meta charset="utf-8"><title>Tarebook</title><meta http-equiv="refresh" content="0; url=${to}"><p><a href="${to}">The bench</a></p></html>\n`;
