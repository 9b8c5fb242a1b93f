/** The task pane in Excel. */
import CopyPlugin from 'copy-webpack-plugin';
import { common, entryFile, fromRoot, page } from './common.mjs';
import { copyOffice, officePages } from './office.mjs';

export default function pane(options) {
  const base = common({ name: 'pane', small: true, ...options });
  return {
    ...base,
    entry: entryFile('src/hosts/excel/pane.tsx'),
    module: {
      rules: [
        ...base.module.rules,
        {
          test: /src[\\/]functions[\\/].*\.ts$/,
          enforce: 'pre',
          loader: fromRoot('tools/webpack/strip-documentation.mjs'),
        },
      ],
    },
    plugins: [
      page({ template: 'src/hosts/excel/pane.html', title: 'Tarebook', office: officePages(options.office) }),
      // What Microsoft serves is not copied as well.
      ...(options.office === 'cdn' ? [] : [copyOffice()]),
      new CopyPlugin({
        patterns: [
          { from: '*.png', context: fromRoot('manifest/icons'), to: 'icons/[name][ext]', info: { minimized: true } },
        ],
      }),
    ],
  };
}
