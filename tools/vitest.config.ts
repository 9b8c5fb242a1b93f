import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { engineForNode } from './engine-for-node.ts';

export default defineConfig({
  resolve: { alias: await engineForNode() },
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: [process.env['TEST_FILES'] ?? 'tests/**/*.test.{ts,tsx}'],
    globalSetup: ['tests/helpers/station-setup.ts'],
    setupFiles: ['tests/helpers/seed.ts', 'tests/helpers/strict.ts', 'tests/helpers/end-with-run.ts'],
    // Nothing of ours is kept in a module between tests, and loading it anew for each file took three times as long.
    isolate: false,
    // How long something takes is for the benchmarks: a test waits for what must come, however busy the machine is.
    testTimeout: 90_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 20_000, interval: 20 } },
    // The tests in a browser wait more than they compute: two at once on two cores.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
