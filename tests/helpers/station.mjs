/**
 * What the tests in a browser share for a whole run, in a process of its own: one Chromium, and the pane on a page
 * with its script built once. Each is made when the first test asks for it. It ends when its input does, and so with
 * the process that started it, however that one ends; the browser then goes with it.
 *
 *   GET /chromium        the address at which Playwright connects to the browser, whose program the header `chromium` names
 *   GET /                the page of the pane, and what it loads
 */
import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const HTML = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Pane</title><link rel="icon" href="data:,">
<style>html, body { margin: 0; height: 100% } #pane { height: 100vh; width: 100% }</style></head>
<body><main id="pane"></main><script src="/page.js"></script></body></html>`;

/** The engine's hyphenation of forty languages is over half of a page's script, and nothing of the pane hyphenates. */
const withoutHyphenation = {
  name: 'without-hyphenation',
  setup: ({ onResolve }) =>
    onResolve({ filter: /^\.\// }, ({ kind, importer, path }) =>
      kind === 'dynamic-import' && importer.includes('engine-render') ? { path, external: true } : undefined,
    ),
};

async function bundle(entry) {
  const { build } = await import('esbuild');
  const { outputFiles } = await build({
    entryPoints: [entry],
    absWorkingDir: ROOT,
    bundle: true,
    write: false,
    format: 'iife',
    minify: true,
    // Files beside the script are asked for beside the page.
    define: { 'process.env.NODE_ENV': '"production"', 'import.meta.url': 'location.href' },
    loader: { '.css': 'empty' },
    external: ['node:*'],
    plugins: [withoutHyphenation],
    logLevel: 'error',
  });
  return Buffer.from(outputFiles[0].contents);
}

async function startChromium(executablePath) {
  const { chromium } = await import('playwright-core');
  const browser = await chromium.launchServer({
    executablePath,
    args: ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
  });
  browser.on('close', () => process.exit());
  return browser;
}

/** Makes it once, when it is first asked for. */
function once(make) {
  let made;
  return (request) => (made ??= make(request));
}

const chromium = once(({ headers }) => startChromium(headers.chromium));
const FILES = {
  '/': ['text/html', () => HTML],
  '/page.js': ['text/javascript', once(() => bundle('tests/pane/page-main.ts'))],
  '/plan-worker.ts': ['text/javascript', once(() => bundle('src/pane/views/buying/plan-worker.ts'))],
  '/trial-worker.ts': ['text/javascript', once(() => bundle('src/pane/views/weights/what-if/trial-worker.ts'))],
  '/highs/runtime': ['application/wasm', once(() => readFile(createRequire(import.meta.url).resolve('highs/runtime')))],
  '/chromium': ['text/plain', async (request) => (await chromium(request)).wsEndpoint()],
};

const server = createServer((request, response) => {
  const [type, make] = FILES[request.url] ?? [];
  if (!type) return response.writeHead(404).end();
  Promise.resolve(make(request)).then(
    (body) => response.writeHead(200, { 'content-type': type, 'cache-control': 'max-age=3600' }).end(body),
    (error) => response.writeHead(500).end(String(error?.stack ?? error)),
  );
});
server.listen(0, '127.0.0.1', () => console.log(`http://127.0.0.1:${server.address().port}`));

process.stdin.resume();
process.stdin.on('close', () => process.exit());
