import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.{ts,tsx}'],
    testTimeout: 30_000,
    hookTimeout: 120_000,
    // The engine's packages import named exports from CommonJS ones, which Node refuses and a bundler does not.
    server: { deps: { inline: [/@univerjs/, /opentype\.js/] } },
  },
});
