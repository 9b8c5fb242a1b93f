/** Installs the packages of the lock file when they are missing or older than it. Plain Node: runs on a fresh clone. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { withLock } from './lock.mjs';

export const root = fileURLToPath(new URL('..', import.meta.url));
const stamp = `${root}node_modules/.tarebook-installed`;

export async function ensureInstalled() {
  if (isInstalled()) return;
  // Two commands at once would take each other's packages away: the second waits for the first.
  await withLock(`${root}dist/.install-lock`, install);
}

const wanted = () =>
  createHash('sha256')
    .update(readFileSync(`${root}package-lock.json`))
    .digest('hex');
const isInstalled = () => existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted();

function install() {
  if (isInstalled()) return;
  console.log('Installing packages (npm ci) …');
  const npm = spawnSync('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (npm.status !== 0) {
    console.error('npm ci failed: see above. Tarebook needs Node 20 or newer and a connection for the first start.');
    process.exit(npm.status ?? 1);
  }
  writeFileSync(stamp, wanted());
}

/** Runs a command of the project to its end; exits with its code when it fails. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (done.error) throw done.error;
  if (done.status !== 0) process.exit(done.status ?? 1);
}
