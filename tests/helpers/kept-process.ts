/** Commands that tests start, which end with the test at the latest. */
import { spawn, type ChildProcessByStdio } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';

const KEEPER = fileURLToPath(new URL('keeper.mjs', import.meta.url));

export type KeptProcess = ChildProcessByStdio<Writable, Readable, Readable>;

/** Starts a command. A signal to the process goes on to the command. */
export const spawnKept = (command: string, args: readonly string[], cwd?: string): KeptProcess =>
  spawn(process.execPath, [KEEPER, command, ...args], { cwd, stdio: ['pipe', 'pipe', 'pipe'] });

/** Kills the command and all that it started, at once, as a power cut does. */
export async function killKept(kept: KeptProcess): Promise<void> {
  if (kept.exitCode !== null || kept.signalCode !== null) return;
  const gone = new Promise((resolve) => kept.on('exit', resolve));
  kept.stdin.destroy();
  await gone;
}
