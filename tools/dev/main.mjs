/**
 * npm run dev: the bench on this computer alone, built anew when a file changes, and reloaded where it is open.
 * Arguments: --port N, the first port that is tried.
 */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureInstalled } from '../install.mjs';

const { values } = parseArgs({ options: { port: { type: 'string', default: '4310' } } });
await ensureInstalled();
const [{ default: webpack }, { default: bench }, { loadTs }, { DIST, fromRoot }] = await Promise.all([
  import('webpack'),
  import('../webpack/bench.mjs'),
  import('../load-ts.mjs'),
  import('../webpack/common.mjs'),
]);

// Beside the bench that `npm run build` makes, which stays as it is.
const FOLDER = join(DIST, 'dev');
/** What the open pages look at: it names the last build. */
const BUILD = 'build.txt';

const config = bench({ dev: true });
const compiler = webpack({
  ...config,
  entry: { main: [fromRoot('tools/dev/reload.mjs'), config.entry] },
  output: { ...config.output, path: FOLDER, clean: { keep: BUILD } },
});

let served;
async function serveOnce() {
  if (served) return;
  const { serve } = (await loadTs('src/cli/serve.ts')).module;
  served = await serve({
    port: Number(values.port),
    mounts: [
      { prefix: '/', folder: FOLDER },
      { prefix: '/samples/', folder: fromRoot('sample-workbooks') },
    ],
  });
  console.log(`The bench, reloaded when a file changes: ${served.address} (Ctrl-C ends it)`);
}

const watching = compiler.watch({}, (error, stats) => {
  if (error) return console.error(error.message);
  console.log(stats.toString({ preset: 'errors-warnings', timings: true, colors: process.stdout.isTTY }));
  if (stats.hasErrors()) return;
  writeFile(join(FOLDER, BUILD), stats.hash)
    .then(serveOnce)
    .catch((fault) => console.error(fault.message));
});

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
  process.once(signal, () =>
    watching.close(() => (served ? served.close() : Promise.resolve()).then(() => process.exit())),
  );
