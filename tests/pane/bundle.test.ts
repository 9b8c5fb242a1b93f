import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('the pane as it is delivered', () => {
  it('is at most 300 kB gzipped when it opens, and names no host', async () => {
    const { outputFiles, metafile } = await build({
      entryPoints: [`${root}src/pane/index.tsx`],
      absWorkingDir: root,
      bundle: true,
      minify: true,
      write: false,
      metafile: true,
      format: 'esm',
      splitting: true,
      outdir: 'out',
      // The solver asks for a module of Node's own where it runs in Node.
      external: ['node:*'],
      define: { 'process.env.NODE_ENV': '"production"' },
      logLevel: 'error',
    });
    const sizes = new Map(outputFiles.map(({ path, contents }) => [relative(root, path), gzipSync(contents).length]));
    const needed = (file: string, seen: Set<string>): Set<string> => {
      if (seen.has(file)) return seen;
      seen.add(file);
      for (const { path, kind } of metafile.outputs[file]!.imports) if (kind === 'import-statement') needed(path, seen);
      return seen;
    };
    const opening = [...needed('out/index.js', new Set())].reduce((sum, file) => sum + sizes.get(file)!, 0);
    expect(opening).toBeGreaterThan(50_000);
    expect(opening).toBeLessThanOrEqual(300_000);
    expect(Object.keys(metafile.inputs).filter((file) => /src\/hosts|@univerjs|office-js/.test(file))).toEqual([]);
  });
});
