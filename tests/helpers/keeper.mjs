/**
 * Runs a command in a process group of its own and kills the group when the keeper's own input ends: a command that
 * a test starts ends with the test, however that one ends. Signals go on to the command; its exit code comes back.
 *
 *   node keeper.mjs COMMAND [ARGUMENT]…
 */
import { spawn } from 'node:child_process';

const ownGroup = process.platform !== 'win32';
const [command, ...args] = process.argv.slice(2);
const child = spawn(command, args, { stdio: ['ignore', 'inherit', 'inherit'], detached: ownGroup });

function killGroup() {
  try {
    if (ownGroup) process.kill(-child.pid, 'SIGKILL');
    else child.kill('SIGKILL');
  } catch (error) {
    if (error.code !== 'ESRCH') throw error;
  }
}

child.on('error', (error) => {
  console.error(error.message);
  process.exit(1);
});
child.on('exit', (code) => process.exit(code ?? 1));
for (const signal of ['SIGHUP', 'SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
process.stdin.resume();
process.stdin.on('close', killGroup);
