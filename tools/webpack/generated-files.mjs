import webpack from 'webpack';
import { loadTs } from '../load-ts.mjs';

/** Emits files that a TypeScript module of the project makes: `texts` turns the module into file names and texts. */
export class GeneratedFiles {
  constructor(entry, texts) {
    this.entry = entry;
    this.texts = texts;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap('GeneratedFiles', (compilation) => {
      compilation.hooks.processAssets.tapPromise(
        { name: 'GeneratedFiles', stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL },
        async () => {
          const { module, files } = await loadTs(this.entry);
          for (const file of files) compilation.fileDependencies.add(file);
          for (const [name, text] of Object.entries(this.texts(module))) {
            compilation.emitAsset(name, new webpack.sources.RawSource(text), { minimized: true });
          }
        },
      );
    });
  }
}
