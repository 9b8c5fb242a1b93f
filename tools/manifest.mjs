#!/usr/bin/env node
/**
 * Writes the add-in's manifest from its one source: node tools/manifest.mjs [--host URL] [--out FILE]
 * Without a host: manifest/manifest.xml for the development server. With one: dist/manifest.xml for it.
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { DEVELOPMENT_HOST, fromRoot } from './webpack/common.mjs';

/** The manifest's text for an add-in served from `host`, an https address with no path or a path of its own. */
export async function manifestFor(host) {
  const url = URL.parse?.(host) ?? parse(host);
  if (url?.protocol !== 'https:' || url.search || url.hash || url.username)
    throw new Error(`the host must be an https address such as https://tarebook.example, got ${host}`);
  const { version } = JSON.parse(await readFile(fromRoot('package.json'), 'utf8'));
  const values = {
    host: url.href.replace(/\/+$/, ''),
    version: manifestVersion(version),
    name: url.origin === DEVELOPMENT_HOST ? 'Tarebook (development)' : 'Tarebook',
  };
  const template = await readFile(fromRoot('manifest/manifest.template.xml'), 'utf8');
  return template.replace(/\{\{(\w+)\}\}/g, (_whole, key) => escape(values[key]));
}

/** Four parts, and at least 1.0 (Office's rule, from memory, verify): before our version 1, ours stands behind a 1. */
const manifestVersion = (version) => (version.startsWith('0.') ? `1.${version}` : `${version}.0`);

const escape = (text) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

function parse(text) {
  try {
    return new URL(text);
  } catch {
    return undefined;
  }
}

if (process.argv[1] && resolve(process.argv[1]) === import.meta.filename) {
  try {
    const { values } = parseArgs({ options: { host: { type: 'string' }, out: { type: 'string' } } });
    const host = values.host ?? DEVELOPMENT_HOST;
    const text = await manifestFor(host);
    const file = resolve(values.out ?? fromRoot(values.host ? 'dist/manifest.xml' : 'manifest/manifest.xml'));
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, text);
    console.log(`${relative(process.cwd(), file)} for ${host}`);
    if (values.host) console.log(`The pages for it: node tools/build.mjs functions pane --host ${host}`);
  } catch (error) {
    console.error(`manifest: ${error.message}`);
    process.exitCode = 1;
  }
}
