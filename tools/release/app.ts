/** What makes the bench an app: its manifest, the worker that keeps its files, and the page with both. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { filesBelow, writeInto } from './files';

/** What the page may load: its own files, as the command's server has it (src/cli/serve.ts). */
const POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'";

const MANIFEST = {
  name: 'Tarebook',
  short_name: 'Tarebook',
  description: 'Weight, balance, rivets and cost of a home-built all-metal airplane, in a spreadsheet',
  start_url: './',
  scope: './',
  display: 'standalone',
  background_color: '#f4f8f9',
  theme_color: '#12485a',
  icons: [
    { src: 'icons/icon.svg', sizes: 'any', type: 'image/svg+xml' },
    { src: 'icons/icon-128.png', sizes: '128x128', type: 'image/png' },
  ],
  file_handlers: [
    { action: './', accept: { 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': ['.xlsx'] } },
  ],
};

/** Turns a copy of the built bench into an app. */
export function makeApp(folder: string, icons: string): void {
  for (const name of ['icon.svg', 'icon-128.png'])
    writeInto(join(folder, 'icons', name), readFileSync(join(icons, name)));
  writeInto(join(folder, 'app.webmanifest'), `${JSON.stringify(MANIFEST, null, 1)}\n`);
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  const head = `<meta http-equiv="Content-Security-Policy" content="${POLICY}"><link rel="manifest" href="app.webmanifest">`;
  // Behind the character set, which has to be among the first bytes.
  const made = page.replace(/<meta charset="utf-8"\s*\/?>/i, (charset) => charset + head);
  if (made === page) throw new Error('the page of the bench has no <meta charset="utf-8"> any more');
  writeInto(join(folder, 'index.html'), made);
  writeInto(join(folder, 'worker.js'), workerOf(folder));
}

/** The worker, with the names of all files; its text changes whenever one of them does. */
function workerOf(folder: string): string {
  const hash = createHash('sha256');
  const names = filesBelow(folder).filter((name) => name !== 'worker.js');
  for (const name of names) hash.update(`\0${name}\0`).update(readFileSync(join(folder, name)));
  // A server may send whoever asks for index.html on to its folder, and a page that was sent on is refused.
  const kept = names.map((name) => (name === 'index.html' ? './' : name));
  return WORKER.replace('{{version}}', hash.digest('hex').slice(0, 16)).replace(
    '{{files}}',
    JSON.stringify(kept, null, 1),
  );
}

const WORKER = `/* Keeps the files of the page, so that it works without the network. */
const FILES = {{files}};
const OURS = 'tarebook ' + self.registration.scope + ' ';
const STORE = OURS + '{{version}}';

self.addEventListener('install', (event) => {
  // All of them or none: a version that is not whole is not taken.
  event.waitUntil(
    caches.open(STORE).then((store) => store.addAll(FILES.map((name) => new Request(name, { cache: 'reload' })))),
  );
});

self.addEventListener('activate', (event) => {
  // The version before stays, for pages that still show it.
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((name) => name.startsWith(OURS) && name !== STORE))
      .then((old) => Promise.all(old.slice(0, -1).map((name) => caches.delete(name)))),
  );
});

self.addEventListener('message', ({ data }) => {
  if (data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method === 'GET' && request.url.startsWith(self.registration.scope)) event.respondWith(answer(request));
});

async function answer(request) {
  const url = new URL(request.url);
  url.search = url.hash = '';
  const address = url.href === self.registration.scope + 'index.html' ? self.registration.scope : url.href;
  const store = await caches.open(STORE);
  return (await store.match(address)) || (await caches.match(address)) || fetch(request);
}
`;
