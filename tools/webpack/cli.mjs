/** The `tarebook` command. */
import webpack from 'webpack';
import { common, entryFile } from './common.mjs';

export default function cli(options) {
  const base = common({ name: 'cli', ...options });
  return {
    ...base,
    entry: entryFile('src/cli/main.ts'),
    target: 'node20',
    experiments: { outputModule: true },
    output: {
      ...base.output,
      filename: 'tarebook.mjs',
      chunkFilename: '[name].mjs',
      module: true,
      library: { type: 'module' },
      chunkFormat: 'module',
    },
    // The solver finds its WebAssembly file beside its own script.
    externals: { highs: 'module highs' },
    optimization: { ...base.optimization, splitChunks: false },
    plugins: [new webpack.BannerPlugin({ banner: '#!/usr/bin/env node', raw: true, entryOnly: true })],
  };
}
