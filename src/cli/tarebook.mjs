#!/usr/bin/env node
/** Starts the `tarebook` command from a clone: installs and builds what is missing or out of date first. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync, utimesSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const BUILT = join(ROOT, 'dist', 'cli', 'tarebook.mjs');
const REFUSED = 2;

/** Folders whose files do not go into the command. */
const APART = new Set(['pane', 'bench', 'excel']);

function newest(folder) {
  let time = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) time = APART.has(entry.name) ? time : Math.max(time, newest(path));
    else time = Math.max(time, statSync(path).mtimeMs);
  }
  return time;
}

/** Output goes to stderr: stdout is for the command's own. */
function run(command, args, failure) {
  const { status } = spawnSync(command, args, {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32' && command === 'npm',
  });
  if (status === 0) return;
  process.stderr.write(`tarebook: ${failure}\n`);
  process.exit(REFUSED);
}

if (Number(process.versions.node.split('.')[0]) < 20) {
  process.stderr.write(`tarebook needs Node.js 20 or later; this is ${process.versions.node}\n`);
  process.exit(REFUSED);
}
if (!existsSync(join(ROOT, 'node_modules'))) {
  process.stderr.write('tarebook: installing its packages (npm ci), once\n');
  run('npm', ['ci'], 'its packages could not be installed; run npm ci in its folder to see why');
}
const built = existsSync(BUILT) ? statSync(BUILT).mtimeMs : 0;
if (built < Math.max(newest(join(ROOT, 'src')), statSync(join(ROOT, 'package-lock.json')).mtimeMs)) {
  process.stderr.write('tarebook: building, as its source has changed\n');
  run(
    process.execPath,
    [join(ROOT, 'tools', 'build.mjs'), 'cli'],
    'the build failed; run node tools/build.mjs cli in its folder to see why',
  );
  // A build that found nothing to do leaves the file as old as it was.
  utimesSync(BUILT, new Date(), new Date());
}
await import(pathToFileURL(BUILT).href);
