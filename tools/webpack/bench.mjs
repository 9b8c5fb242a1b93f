/** The bench: a spreadsheet in the browser with the pane beside it. */
import { common, entryFile, page } from './common.mjs';
import { GeneratedFiles } from './generated-files.mjs';

/** The function reference lies beside the page, under the folder's name. */
const inFolder = (folder, texts) =>
  Object.fromEntries(Object.entries(texts).map(([name, text]) => [`${folder}/${name}`, text]));

export default function bench(options) {
  const base = common({ name: 'bench', ...options });
  return {
    ...base,
    entry: entryFile('src/hosts/bench/main.tsx'),
    output: { ...base.output, filename: '[name].[contenthash:8].js' },
    optimization: {
      ...base.optimization,
      splitChunks: {
        chunks: 'all',
        cacheGroups: { packages: { test: /node_modules/, name: 'packages', chunks: 'initial' } },
      },
    },
    plugins: [
      page({ template: 'src/hosts/bench/index.html', title: 'Tarebook' }),
      new GeneratedFiles('src/functions/reference/index.ts', ({ referencePages }) =>
        inFolder('reference', referencePages()),
      ),
    ],
  };
}
