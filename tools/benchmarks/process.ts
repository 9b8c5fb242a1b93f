/** A program run to its end: how long it took, what it computed and how much memory it had. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Run {
  /** Wall clock, s. */
  readonly seconds: number;
  /** User and system time of the process and those it started, s; undefined where GNU time is missing. */
  readonly processor: number | undefined;
  /** The most resident memory that one process had, MB (2^20 bytes); undefined where GNU time is missing. */
  readonly memory: number | undefined;
}

const GNU_TIME = ['/usr/bin/time', '/usr/local/bin/gtime', '/opt/homebrew/bin/gtime'].find(
  (path) => spawnSync(path, ['-f', '%e', 'true'], { stdio: 'ignore' }).status === 0,
);

/** Throws where the program fails. */
export function runProgram(command: string, args: readonly string[]): Run {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-bench-'));
  const log = join(folder, 'time');
  const [program, all] = GNU_TIME ? [GNU_TIME, ['-f', '%U %S %M', '-o', log, command, ...args]] : [command, args];
  try {
    const start = performance.now();
    const { status, stderr } = spawnSync(program, all, {
      encoding: 'utf8',
      stdio: ['ignore', 'ignore', 'pipe'],
      maxBuffer: 2 ** 26,
    });
    const seconds = (performance.now() - start) / 1000;
    if (status !== 0) throw new Error(`${command} ended with ${status}: ${stderr.slice(-400)}`);
    if (!GNU_TIME) return { seconds, processor: undefined, memory: undefined };
    const [user = 0, system = 0, kilobytes = 0] = readFileSync(log, 'utf8')
      .trim()
      .split('\n')
      .at(-1)!
      .split(' ')
      .map(Number);
    return { seconds, processor: user + system, memory: kilobytes / 1024 };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
