import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';

const root = new URL('../..', import.meta.url).pathname;

describe('the pane as it is delivered', () => {
  it('is at most 300 kB gzipped, with everything it needs, and names no host', async () => {
    const { outputFiles, metafile } = await build({
      entryPoints: [`${root}src/pane/index.tsx`],
      absWorkingDir: root,
      bundle: true,
      minify: true,
      write: false,
      metafile: true,
      format: 'esm',
      define: { 'process.env.NODE_ENV': '"production"' },
      logLevel: 'error',
    });
    expect(gzipSync(outputFiles[0]!.contents).length).toBeLessThanOrEqual(300_000);
    expect(Object.keys(metafile.inputs).filter((file) => /src\/hosts|@univerjs|office-js/.test(file))).toEqual([]);
  });
});
