/** The worksheet functions for Excel: a script, the page that holds it where a browser runs it, and the metadata. */
import webpack from 'webpack';
import { loadTs } from '../load-ts.mjs';
import { common, entryFile, fromRoot, page } from './common.mjs';

/** Emits what is generated from the catalogue beside the bundle. */
class CatalogueFiles {
  constructor(host) {
    this.host = host;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap('CatalogueFiles', (compilation) => {
      compilation.hooks.processAssets.tapPromise({ name: 'CatalogueFiles', stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, async () => {
        const { module, files } = await loadTs('src/hosts/excel/catalogue-files.ts');
        for (const file of files) compilation.fileDependencies.add(file);
        for (const [name, text] of Object.entries(module.catalogueFiles(this.host))) {
          compilation.emitAsset(name, new webpack.sources.RawSource(text), { minimized: true });
        }
      });
    });
  }
}

export default function functions(options) {
  // Excel on Windows runs the script in an engine of its own without a page, whose age we do not know.
  const base = common({ name: 'functions', language: 'es2019', small: true, ...options });
  return {
    ...base,
    entry: entryFile('src/hosts/excel/functions-main.ts'),
    module: { rules: [...base.module.rules, { test: /src[\\/]functions[\\/].*\.ts$/, enforce: 'pre', loader: fromRoot('tools/webpack/strip-documentation.mjs') }] },
    plugins: [
      page({ template: 'src/hosts/excel/functions.html', title: 'Tarebook functions', filename: 'functions.html', minify: false }),
      new CatalogueFiles(options.host),
    ],
    // One file: the manifest names it, and Excel loads nothing beside it.
    optimization: { splitChunks: false },
  };
}

