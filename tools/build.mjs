#!/usr/bin/env node
/** Builds what is asked: node tools/build.mjs [functions|pane|bench|cli|all]… [--dev] [--force] [--host URL] [--office local|cdn] */
import { createHash } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { chmod, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';
import webpack from 'webpack';
import { withLock } from './lock.mjs';
import { DEVELOPMENT_HOST, DIST, ROOT, isOurs } from './webpack/common.mjs';

const TARGETS = ['functions', 'pane', 'bench', 'cli'];
const STAMPS = join(DIST, '.stamps');

const { values: options, positionals: asked } = parseArgs({
  allowPositionals: true,
  options: {
    dev: { type: 'boolean', default: false },
    force: { type: 'boolean', default: false },
    /** Where the add-in will be served from: only the functions' help links need to know. */
    host: { type: 'string', default: DEVELOPMENT_HOST },
    /** Where the pages have Office.js from: our own folder, or Microsoft's servers, as its marketplace wants it. */
    office: { type: 'string', default: 'local' },
  },
});
if (options.office !== 'local' && options.office !== 'cdn') {
  console.error(`build: --office is local or cdn, got "${options.office}"`);
  process.exit(2);
}
const settings = { dev: options.dev, host: options.host.replace(/\/+$/, ''), office: options.office };
const unknown = asked.find((word) => word !== 'all' && !TARGETS.includes(word));
if (unknown) {
  console.error(`build: no target "${unknown}"; there are ${TARGETS.join(', ')} and all`);
  process.exit(2);
}
const targets = asked.length === 0 || asked.includes('all') ? TARGETS : asked;

for (const target of targets) {
  try {
    // Tests that run side by side ask for the same build: the second waits, and finds it made.
    await withLock(join(STAMPS, `${target}.lock`), () => buildTarget(target));
  } catch (error) {
    console.error(`${target}: ${error.message}`);
    process.exitCode = 1;
  }
}

async function buildTarget(target) {
  const started = performance.now();
  const stampFile = join(STAMPS, `${target}.json`);
  if (!options.force && (await isFresh(target, stampFile)))
    return report(target, 'unchanged', JSON.parse(await readFile(stampFile, 'utf8')), started);
  const { default: configure } = await import(`./webpack/${target}.mjs`);
  const stats = await run(configure(settings));
  const { compilation } = stats;
  const stamp = {
    settings: settingsOf(target),
    inputs: inputsOf(compilation),
    packages: packagesOf(compilation),
    ...(await sizes(stats)),
  };
  stamp.hash = await hashOf(stamp);
  if (target === 'cli') await chmod(join(DIST, 'cli', 'tarebook.mjs'), 0o755);
  await mkdir(STAMPS, { recursive: true });
  await writeFile(stampFile, JSON.stringify(stamp, null, 1));
  report(target, 'built', stamp, started);
}

/** The files of this repository that went into a build. */
function inputsOf({ fileDependencies }) {
  // What package.json says that matters to a build is in package-lock.json too.
  const files = [...fileDependencies].filter(
    (path) =>
      isOurs(path) && path !== join(ROOT, 'package.json') && statSync(path, { throwIfNoEntry: false })?.isFile(),
  );
  return files.map((file) => relative(ROOT, file)).sort();
}

/** The packages whose code is in a bundle. */
function packagesOf({ modules }) {
  const files = [...modules]
    .flatMap((module) => module.modules ?? [module])
    .map((module) => module.nameForCondition?.() ?? '');
  const names = files.map((file) =>
    /.*node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)/.exec(file)?.[1]?.replace('\\', '/'),
  );
  return [...new Set(names.filter(Boolean))].sort();
}

/** Sizes of what is loaded first, and the names of all files written. */
async function sizes({ compilation }) {
  const { path } = compilation.outputOptions;
  const first = [...compilation.entrypoints.values()]
    .flatMap((entry) => entry.getFiles())
    .filter((file) => !file.endsWith('.map'));
  // From the disk: webpack keeps only the sizes of files that it has written.
  const texts = await Promise.all(first.map((name) => readFile(join(path, name))));
  return {
    first: texts.reduce((sum, text) => sum + text.length, 0),
    gzip: texts.reduce((sum, text) => sum + gzipSync(text, { level: 9 }).length, 0),
    output: relative(ROOT, path),
    outputs: compilation.getAssets().map((asset) => asset.name),
  };
}

function run(config) {
  return new Promise((resolve, reject) => {
    const compiler = webpack(config);
    compiler.run((error, stats) => {
      compiler.close(() => {
        if (error) return reject(error);
        if (stats.hasErrors())
          return reject(
            new Error(
              stats.toString({
                all: false,
                errors: true,
                errorDetails: false,
                moduleTrace: true,
                colors: process.stdout.isTTY,
              }),
            ),
          );
        resolve(stats);
      });
    });
  });
}

/** True where everything that went into the last build of the target, and all that came out, is still there unchanged. */
async function isFresh(target, stampFile) {
  if (!existsSync(stampFile)) return false;
  const stamp = JSON.parse(await readFile(stampFile, 'utf8'));
  if (JSON.stringify(stamp.settings) !== JSON.stringify(settingsOf(target))) return false;
  if (!stamp.outputs.every((name) => existsSync(join(ROOT, stamp.output, name)))) return false;
  return (await hashOf(stamp)) === stamp.hash;
}

/** The settings that a target depends on. */
function settingsOf(target) {
  const { dev, office } = settings;
  if (target === 'functions') return settings;
  return target === 'pane' ? { dev, office } : { dev };
}

async function hashOf({ inputs }) {
  const tools = [
    'build.mjs',
    'load-ts.mjs',
    'webpack/common.mjs',
    'webpack/office.mjs',
    'webpack/strip-documentation.mjs',
    ...TARGETS.map((name) => `webpack/${name}.mjs`),
  ].map((name) => `tools/${name}`);
  const hash = createHash('sha256');
  for (const name of [...inputs, 'package-lock.json', 'tsconfig.json', ...tools]) {
    hash.update(`\0${name}\0`);
    hash.update(await readFile(join(ROOT, name)).catch(() => 'absent'));
  }
  return hash.digest('hex');
}

function report(target, what, { first, gzip }, started) {
  const kb = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
  console.log(
    `${target.padEnd(10)} ${what.padEnd(10)} ${kb(first).padStart(10)}  gzip ${kb(gzip).padStart(9)}  ${((performance.now() - started) / 1000).toFixed(1)} s`,
  );
}
