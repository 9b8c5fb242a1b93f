/** The worksheet functions for Excel: a script, the page that holds it where a browser runs it, and the metadata. */
import { EsbuildPlugin } from 'esbuild-loader';
import webpack from 'webpack';
import { loadTs } from '../load-ts.mjs';
import { common, entryFile, page } from './common.mjs';
import { copyOffice } from './office.mjs';

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
  const base = common({ name: 'functions', ...options });
  return {
    ...base,
    // Excel on Windows runs the script in an engine of its own without a page, whose age we do not know.
    target: ['web', 'es2019'],
    entry: entryFile('src/hosts/excel/functions-main.ts'),
    plugins: [
      page({ template: 'src/hosts/excel/functions.html', title: 'Tarebook functions', filename: 'functions.html', minify: false }),
      new CatalogueFiles(options.host),
      copyOffice(['custom-functions-runtime.js']),
    ],
    // One file: the manifest names it, and Excel loads nothing beside it.
    optimization: { ...base.optimization, splitChunks: false, minimizer: [new EsbuildPlugin({ target: 'es2019', legalComments: 'eof' })] },
  };
}

