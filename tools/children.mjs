/**
 * Runs commands of the project so that none outlives this process: each has a process group of its own, which is
 * ended with all that the command started when this process is told to end.
 */
import { spawn } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import { root } from './install.mjs';

const SIGNALS = { SIGHUP: 1, SIGINT: 2, SIGTERM: 15 };
/** What a command is given to clean up after itself before it is killed. */
const GRACE_MS = 5_000;
const ownGroup = process.platform !== 'win32';
const running = new Set();

/** Sends a signal to a command and all that it started; one that has ended is let alone. */
function signalAll(child, signal) {
  try {
    if (ownGroup) process.kill(-child.pid, signal);
    else child.kill(signal);
  } catch (error) {
    if (error.code !== 'ESRCH') throw error;
  }
}

/** Ends every command that runs, with what it started. */
export async function endAll(signal = 'SIGTERM') {
  const ending = [...running].map(({ child, ended }) => {
    signalAll(child, signal);
    const timer = setTimeout(() => signalAll(child, 'SIGKILL'), GRACE_MS);
    // A child of the command may be there still when the command itself is gone.
    return ended.then(() => (clearTimeout(timer), signalAll(child, 'SIGKILL')));
  });
  await Promise.all(ending);
}

let told = false;
for (const [signal, number] of Object.entries(SIGNALS))
  process.on(signal, () => {
    if (told) return;
    told = true;
    void endAll(signal).then(() => process.exit(128 + number));
  });

/** Has a command take what others leave of the processors. Where the system refuses, it runs as the others do. */
function yieldToOthers({ pid }) {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW);
  } catch {
    // It has ended already, or may not be slowed.
  }
}

/**
 * Runs Node with the arguments in the project's folder. Resolves with its exit code, and with its output where that is
 * kept back. What is behind takes no time from what runs beside it.
 */
export function runNode(args, { quiet = false, behind = false, env = {} } = {}) {
  const child = spawn(process.execPath, args, {
    cwd: root,
    stdio: ['ignore', quiet ? 'pipe' : 'inherit', quiet ? 'pipe' : 'inherit'],
    detached: ownGroup,
    env: { ...process.env, ...env },
  });
  if (behind) yieldToOthers(child);
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (text) => (output += text));
  const ended = new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? 1, output }));
  });
  const one = { child, ended };
  running.add(one);
  return ended.finally(() => running.delete(one));
}

/**
 * Runs tasks side by side, at most `slots` at once, each with its output in one piece when it has ended; the first
 * that fails ends all that runs. Resolves with true where all passed.
 */
export async function runTasks(tasks, slots, { behind = false } = {}) {
  const waiting = [...tasks];
  let failed = false;
  const work = async () => {
    for (let task = waiting.shift(); task && !failed; task = waiting.shift()) {
      const started = performance.now();
      const { code, output } = await runNode(task.args, { quiet: true, behind });
      if (failed || told) return;
      const seconds = ((performance.now() - started) / 1000).toFixed(1);
      console.log(
        `${code === 0 ? '✔' : '✖'} ${task.name}, ${seconds} s${output.trim() ? `\n${output.trimEnd()}` : ''}`,
      );
      if (code === 0) continue;
      failed = true;
      await endAll();
    }
  };
  await Promise.all(Array.from({ length: slots }, work));
  return !failed && !told;
}
