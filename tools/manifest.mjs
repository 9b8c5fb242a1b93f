#!/usr/bin/env node
/**
 * Writes the add-in's manifest from its one source: node tools/manifest.mjs [--host URL] [--out FILE]
 * Without a host: manifest/manifest.xml for the development server. With one: dist/manifest.xml for it.
 */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { DEVELOPMENT_HOST, fromRoot } from './webpack/common.mjs';

/** Excel keeps add-ins apart by their ids: the one under development and the released one can be there side by side. */
const IDS = { development: '7d0f6a1c-3b52-4e0e-9c58-5a41f2b7d913', release: 'cfe1ddaa-bb1f-4c30-b806-96ef0ca1e2bc' };

/**
 * The manifest's text for an add-in served from `host`, an https address with no path or a path of its own.
 * `support` is the address of the page for those who need help: the function reference if left out.
 */
export async function manifestFor(host, { support } = {}) {
  const url = URL.parse?.(host) ?? parse(host);
  if (url?.protocol !== 'https:' || url.search || url.hash || url.username)
    throw new Error(`the host must be an https address such as https://tarebook.example, got ${host}`);
  const { version } = JSON.parse(await readFile(fromRoot('package.json'), 'utf8'));
  const base = url.href.replace(/\/+$/, '');
  const isDevelopment = url.hostname === new URL(DEVELOPMENT_HOST).hostname;
  const values = {
    host: base,
    id: isDevelopment ? IDS.development : IDS.release,
    support: support ?? `${base}/functions/reference/index.html`,
    version: manifestVersion(version),
    name: isDevelopment ? 'Tarebook (development)' : 'Tarebook',
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
