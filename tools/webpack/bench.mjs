/** The bench: a spreadsheet in the browser with the pane beside it. */
import { common, entryFile, page } from './common.mjs';

export default function bench(options) {
  const base = common({ name: 'bench', ...options });
  return {
    ...base,
    entry: entryFile('src/hosts/bench/main.tsx'),
    output: { ...base.output, filename: '[name].[contenthash:8].js' },
    optimization: { ...base.optimization, splitChunks: { chunks: 'all', cacheGroups: { packages: { test: /node_modules/, name: 'packages', chunks: 'initial' } } } },
    plugins: [page({ template: 'src/hosts/bench/index.html', title: 'Tarebook' })],
  };
}
