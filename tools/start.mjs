#!/usr/bin/env node
/**
 * npm start: installs what is missing, builds what changed, prints the sample wing's roll-up and serves the
 * bench until it is ended. Plain Node: runs on a fresh clone. Arguments go to `tarebook serve` (--no-open, --port).
 */
import { spawn, spawnSync } from 'node:child_process';
import { ensureInstalled, root, run } from './install.mjs';

const TAREBOOK = 'dist/cli/tarebook.mjs';

await ensureInstalled();
run(process.execPath, ['tools/build.mjs', 'bench', 'cli']);
console.log();
// A report with cells in error is a report too.
spawnSync(process.execPath, [TAREBOOK, 'report', 'sample-workbooks/wing.xlsx'], { cwd: root, stdio: 'inherit' });

const server = spawn(process.execPath, [TAREBOOK, 'serve', ...process.argv.slice(2)], { cwd: root, stdio: 'inherit' });
// Ctrl-C reaches the server by itself; a signal to this process alone is passed on.
for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP']) process.on(signal, () => server.kill(signal));
server.on('exit', (code) => process.exit(code ?? 1));
