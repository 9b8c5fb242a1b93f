/** The worksheet functions for Excel: a script, the page that holds it where a browser runs it, and the metadata. */
import { common, entryFile, fromRoot, page } from './common.mjs';
import { GeneratedFiles } from './generated-files.mjs';
import { officePages } from './office.mjs';

export default function functions(options) {
  // Excel on Windows runs the script in an engine of its own without a page, whose age we do not know: the language
  // is ES2016, and src/hosts/excel/missing-members.ts brings what came after it.
  const base = common({ name: 'functions', language: 'es2016', small: true, ...options });
  return {
    ...base,
    entry: entryFile('src/hosts/excel/functions-main.ts'),
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
      page({
        template: 'src/hosts/excel/functions.html',
        title: 'Tarebook functions',
        filename: 'functions.html',
        minify: false,
        office: officePages(options.office),
      }),
      new GeneratedFiles('src/hosts/excel/catalogue-files.ts', ({ catalogueFiles }) => catalogueFiles(options.host)),
    ],
    // One file: the manifest names it, and Excel loads nothing beside it.
    optimization: { splitChunks: false },
  };
}
