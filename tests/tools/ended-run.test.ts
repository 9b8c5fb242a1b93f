/** A test run that is ended leaves nothing running: every process of it is known by a marker in its environment. */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, it, type ExpectStatic } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

interface Running {
  readonly pid: number;
  readonly command: string;
}

/** Processes with the marker; one that has ended and is not yet collected has no command any more. */
const marked = (marker: string): Running[] =>
  readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      if (!readFileSync(`/proc/${name}/environ`, 'latin1').includes(`TAREBOOK_RUN=${marker}`)) return [];
      const command = readFileSync(`/proc/${name}/cmdline`, 'latin1').replaceAll('\0', ' ').trim();
      return command === '' ? [] : [{ pid: Number(name), command }];
    } catch {
      return [];
    }
  });

interface Run {
  readonly marker: string;
  /** Of the command that was started, and of vitest, which it starts. */
  readonly pid: number;
  vitest(): number;
}

/** Starts a run, and resolves when it has its browsers and its server. */
async function hanging(name: string, expect: ExpectStatic): Promise<Run> {
  const marker = `tarebook-run-${name}-${process.pid}`;
  const { pid } = spawn(process.execPath, ['tools/test.mjs', '--tests-alone'], {
    cwd: root,
    stdio: 'ignore',
    env: {
      ...process.env,
      TAREBOOK_RUN: marker,
      TEST_FILES: 'tests/tools/hanging.run.ts',
      TEST_REPORT: join(tmpdir(), marker, 'report.json'),
    },
  });
  await expect.poll(() => existsSync(join(tmpdir(), marker, 'ready')), { timeout: 100_000 }).toBe(true);
  return {
    marker,
    pid: pid!,
    vitest: () => marked(marker).find(({ command }) => /vitest\.mjs run/.test(command))!.pid,
  };
}

// Another program's environment is to be read on Linux alone.
describe.skipIf(process.platform !== 'linux')('a test run that is ended', () => {
  // Side by side: each waits most of the time.
  it.concurrent.for([
    ['by Ctrl-C', 'SIGINT', (run: Run) => run.pid],
    ['by a signal', 'SIGTERM', (run: Run) => run.pid],
    ['by kill -9', 'SIGKILL', (run: Run) => run.pid],
    ['by kill -9 of vitest', 'SIGKILL', (run: Run) => run.vitest()],
  ] as const)(
    'leaves no browser and no server: %s',
    { timeout: 200_000 },
    async ([name, signal, pidOf], { expect, onTestFinished }) => {
      const run = await hanging(name.replaceAll(' ', '-'), expect);
      onTestFinished(() => {
        for (const { pid } of marked(run.marker)) process.kill(pid, 'SIGKILL');
        rmSync(join(tmpdir(), run.marker), { recursive: true, force: true });
      });
      expect(marked(run.marker).filter(({ command }) => /createServer|chrom/.test(command)).length).toBeGreaterThan(1);
      process.kill(pidOf(run), signal);
      await expect
        .poll(() => marked(run.marker).map(({ command }) => command.slice(0, 100)), { timeout: 30_000, interval: 250 })
        .toEqual([]);
    },
  );
});
