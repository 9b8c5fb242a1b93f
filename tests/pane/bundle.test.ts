/** What the pane takes in. Its size is tested where it is built as it is delivered: tests/hosts/excel/pages.test.ts. */
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

it('the pane names no host', async () => {
  const { metafile } = await build({
    entryPoints: [`${root}src/pane/index.tsx`],
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    format: 'esm',
    splitting: true,
    outdir: 'out',
    // The solver asks for a module of Node's own where it runs in Node.
    external: ['node:*'],
    logLevel: 'error',
  });
  const inputs = Object.keys(metafile.inputs);
  expect(inputs).toContain('src/pane/index.tsx');
  expect(inputs.filter((file) => /src\/hosts|@univerjs|office-js/.test(file))).toEqual([]);
});
