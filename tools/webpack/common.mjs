/** What every bundle has in common. */
import { existsSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { EsbuildPlugin } from 'esbuild-loader';
import HtmlWebpackPlugin from 'html-webpack-plugin';
import Minimizer from 'minimizer-webpack-plugin';

export const ROOT = resolve(import.meta.dirname, '..', '..');
export const DIST = join(ROOT, 'dist');
export const fromRoot = (...parts) => join(ROOT, ...parts);

/** Absolute path of an entry; throws with one clear line where the file is missing. */
export function entryFile(path) {
  const file = fromRoot(path);
  if (!existsSync(file)) throw new Error(`${path} does not exist`);
  return file;
}

/** A page for a bundle: its own template where it has one, else a bare page with a root element. */
export function page({ template, title, filename = 'index.html', ...rest }) {
  const own = template && existsSync(fromRoot(template));
  return new HtmlWebpackPlugin({
    template: own ? fromRoot(template) : fromRoot('tools/webpack/page.html'),
    filename,
    title,
    scriptLoading: 'defer',
    ...rest,
  });
}

/** Where the add-in is served from while it is developed. */
export const DEVELOPMENT_HOST = 'https://localhost:3000';

const SMALL = new Minimizer({
  minify: Minimizer.swcMinify,
  minimizerOptions: { compress: { passes: 2 }, mangle: true },
});

/** @param {{ name: string, dev: boolean, host: string, language?: string, small?: boolean }} options language: the ECMAScript that is written; small: size before speed of the build */
export function common({ name, dev, language = 'es2022', small = false }) {
  return {
    name,
    context: ROOT,
    mode: dev ? 'development' : 'production',
    target: ['web', language],
    devtool: dev ? 'source-map' : false,
    output: {
      path: join(DIST, name),
      filename: `${name}.js`,
      chunkFilename: '[name].[contenthash:8].js',
      assetModuleFilename: '[name].[contenthash:8][ext]',
      clean: true,
    },
    // Packages that also run in Node ask for its own modules on a path that no browser takes.
    externals: [({ request }, give) => (request?.startsWith('node:') ? give(null, 'var {}') : give())],
    resolve: { extensions: ['.tsx', '.ts', '.mjs', '.js', '.json'] },
    module: {
      rules: [
        {
          test: /\.[cm]?tsx?$/,
          exclude: /node_modules/,
          loader: 'esbuild-loader',
          options: { target: language, jsx: 'automatic' },
        },
        // Its modules only declare: a page that opens takes those that it uses then, and no others of the same index.
        { test: /[\\/]src[\\/]project[\\/]/, sideEffects: false },
        { test: /\.css$/, use: ['style-loader', 'css-loader'] },
        { test: /\.(svg|png|woff2?|xlsx|wasm)$/, type: 'asset/resource' },
        // Packages that are published as modules without file extensions in their imports.
        { test: /\.m?js$/, resolve: { fullySpecified: false } },
      ],
    },
    // esbuild's minimizer is the fastest; swc's takes twice as long and writes a tenth less, as terser does in six times as long.
    optimization: { minimizer: [small ? SMALL : new EsbuildPlugin({ target: language, legalComments: 'eof' })] },
    // The sizes that matter are tests of their own.
    performance: false,
    stats: 'none',
    infrastructureLogging: { level: 'error' },
    // Writing it takes a fifth of a build, for nothing on a machine that builds once.
    cache: process.env.CI !== 'true' && {
      type: 'filesystem',
      cacheDirectory: fromRoot('node_modules', '.cache', 'webpack'),
      name: `${name}-${dev ? 'dev' : 'production'}`,
      buildDependencies: {
        config: [
          import.meta.filename,
          fromRoot('tools/webpack', `${name}.mjs`),
          fromRoot('tools/webpack/strip-documentation.mjs'),
        ],
      },
    },
  };
}

/** True for a file that belongs to this repository and not to a package. */
export const isOurs = (file) => {
  const inside = relative(ROOT, file);
  return !inside.startsWith('..') && !inside.startsWith('node_modules');
};
