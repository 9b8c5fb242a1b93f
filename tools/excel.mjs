#!/usr/bin/env node
/**
 * npm run excel: builds the add-in, serves it on https://localhost:3000 with a certificate for this machine,
 * and has Excel open with it: node tools/excel.mjs [desktop|web] [--document ADDRESS] [--port N] [--serve-only] [--fetch]
 *
 * Certificates and sideloading are the work of Microsoft's own tools. The one that opens Excel is fetched, and only
 * where --fetch allows it.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureInstalled, root, run } from './install.mjs';
import { certificatesCommand, DEBUGGING, debuggingCommand } from './office-tools.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    document: { type: 'string' },
    port: { type: 'string' },
    'serve-only': { type: 'boolean', default: false },
    /** May fetch the tool that opens Excel. */
    fetch: { type: 'boolean', default: false },
  },
});
const [where = 'desktop'] = positionals;
if (where !== 'desktop' && where !== 'web') fail(`excel: "desktop" or "web", got "${where}"`, 2);
if (where === 'web' && !values.document && !values['serve-only'])
  fail('excel: for the web give the address of a workbook of yours: npm run excel -- web --document ADDRESS', 2);

await ensureInstalled();
const { logErrorMessage, parseNumber } = await import('office-addin-cli');
const port = portOf(values.port);
const host = `https://localhost:${port}`;
const MANIFEST = port === 3000 ? 'manifest/manifest.xml' : 'dist/manifest.xml';
const forHost = port === 3000 ? [] : ['--host', host];
run(process.execPath, ['tools/build.mjs', 'functions', 'pane', ...forHost]);
run(process.execPath, ['tools/manifest.mjs', ...forHost]);

// Excel on the web fetches the manifest from here, too.
if (MANIFEST !== 'dist/manifest.xml') copyFileSync(join(root, MANIFEST), join(root, 'dist/manifest.xml'));
const { loadTs } = await import('./load-ts.mjs');
const { serve } = (await loadTs('src/cli/serve.ts')).module;
try {
  await serve({
    mounts: [{ prefix: '/', folder: join(root, 'dist') }],
    port,
    exactly: true,
    certificate: certificate(),
    // Excel on the web reads the metadata from its own origin.
    headers: { 'X-Content-Type-Options': 'nosniff', 'Access-Control-Allow-Origin': '*' },
  });
} catch (error) {
  fail(`excel: ${error.message}`);
}
console.log(`The add-in is served on ${host} until you press Ctrl-C.`);
if (!values['serve-only']) sideload();
process.on('SIGINT', () => {
  if (!values['serve-only'] && values.fetch && canSideload()) tool(debuggingCommand(['stop', MANIFEST]));
  process.exit(0);
});

function portOf(given) {
  try {
    const number = parseNumber(given, `excel: --port takes a whole number from 1024 to 65535, got "${given}"`) ?? 3000;
    if (!Number.isInteger(number) || number < 1024 || number > 65535)
      throw new Error(`excel: --port takes a whole number from 1024 to 65535, got "${given}"`);
    return number;
  } catch (error) {
    logErrorMessage(error);
    return process.exit(2);
  }
}

/** Excel for the desktop is there on Windows and the Mac alone; a browser is everywhere. */
function canSideload() {
  return where === 'web' || process.platform === 'win32' || process.platform === 'darwin';
}

function sideload() {
  if (!canSideload()) {
    console.log(
      `Excel does not run on this system. In Excel on the web, upload ${MANIFEST} as an add-in of yours, or:\n  npm run excel -- web --document ADDRESS_OF_A_WORKBOOK`,
    );
    return;
  }
  if (!values.fetch) {
    console.log(
      `To have Excel opened with the add-in, say --fetch: npm run excel -- ${where} --fetch\nThat fetches ${DEBUGGING} and some 590 packages that it brings, once. Or add ${MANIFEST} in Excel by hand.`,
    );
    return;
  }
  const document = values.document ? ['--document', values.document] : [];
  const status = tool(debuggingCommand(['start', MANIFEST, where, '--app', 'excel', '--no-debug', ...document]));
  if (status !== 0) console.log(`Excel could not be opened with the add-in. It can be added by hand: ${MANIFEST}`);
}

/** Key and certificate for localhost, made and trusted by Microsoft's tool. */
function certificate() {
  tool(certificatesCommand('install'));
  // It says whether the certificate is trusted: until it is, Excel and browsers refuse the pages.
  tool(certificatesCommand('verify'));
  const file = (name) => readFileSync(join(homedir(), '.office-addin-dev-certs', name));
  try {
    return { key: file('localhost.key'), cert: file('localhost.crt') };
  } catch {
    return fail('excel: there is no certificate for localhost, and without one Excel loads nothing');
  }
}

/** Runs one of Microsoft's tools; gives its exit status. */
function tool(found) {
  if (!found) return fail('excel: npm is not found beside Node: start this by npm run excel');
  // Without their packages' install scripts: what they compile is for another form of manifest.
  const env = { ...process.env, npm_config_ignore_scripts: 'true' };
  return spawnSync(found.command, found.args, { cwd: root, stdio: 'inherit', env }).status ?? 1;
}

function fail(message, status = 1) {
  console.error(message);
  process.exit(status);
}
