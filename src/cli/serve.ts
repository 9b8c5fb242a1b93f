/** The local server of the bench, and of the add-in for Excel: on this computer alone, and nothing but its own files. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { createHash } from 'node:crypto';
import { readFile, realpath, stat } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

export const FIRST_PORT = 4310;
const PORTS_TRIED = 50;
const HOST = '127.0.0.1';

/**
 * What the page may load: its own files. The spreadsheet sets styles from scripts, draws pictures from data
 * and blob addresses, and the cutting plans run as WebAssembly.
 */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

type Headers = Readonly<Record<string, string>>;

const BENCH_HEADERS: Headers = {
  'Content-Security-Policy': CONTENT_SECURITY_POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(), geolocation=(), microphone=()',
};

export interface ServeOptions {
  readonly mounts: readonly Mount[];
  /** The first port that is tried; when it is taken, the next free one. 0: any. */
  readonly port?: number;
  /** True: that port or none, since others know its address. */
  readonly exactly?: boolean;
  /** For https. */
  readonly certificate?: { readonly key: Buffer; readonly cert: Buffer };
  /** What goes with every answer; the bench's own, which let a page load nothing from elsewhere, where none are given. */
  readonly headers?: Headers;
}

export interface Served {
  readonly address: string;
  readonly port: number;
  /** Ends the server and its connections. */
  close(): Promise<void>;
}

const LAST_PORT = 65_535;
const OTHER_PORT = 'Give another with --port; --port 0 takes any that is free.';

/** Thrown where no port can be had; the message is one line. */
export class PortError extends Error {
  override readonly name = 'PortError';
}

/** Serves the mounts on this computer's own address. Throws PortError where no port can be had. */
export async function serve({
  mounts,
  port = FIRST_PORT,
  exactly = false,
  certificate,
  headers = BENCH_HEADERS,
}: ServeOptions): Promise<Served> {
  const site: Site = { files: new StaticFiles(mounts), headers };
  const handle = (request: IncomingMessage, response: ServerResponse): void => {
    answer(site, request, response).catch(() => refuse(site, response, 500, 'The file could not be read'));
  };
  const server = certificate ? createSecureServer(certificate, handle) : createServer(handle);
  await listen(server, port, exactly ? port : Math.min(port + PORTS_TRIED, LAST_PORT));
  const taken = (server.address() as AddressInfo).port;
  return {
    address: `${certificate ? 'https' : 'http'}://${HOST}:${taken}/`,
    port: taken,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

interface Site {
  readonly files: StaticFiles;
  readonly headers: Headers;
}

async function listen(server: Server, first: number, last: number): Promise<void> {
  for (let port = first; ; port += 1) {
    const error = await new Promise<NodeJS.ErrnoException | undefined>((resolve) => {
      server.once('error', resolve);
      server.listen(port, HOST, () => {
        server.off('error', resolve);
        resolve(undefined);
      });
    });
    if (!error) return;
    if (error.code !== 'EADDRINUSE') throw new PortError(`Port ${port} cannot be used (${error.code}). ${OTHER_PORT}`);
    if (port >= last)
      throw new PortError(
        `${first === port ? `Port ${port} is` : `Ports ${first} to ${port} are`} taken by other programs. ${OTHER_PORT}`,
      );
  }
}

async function answer(site: Site, request: IncomingMessage, response: ServerResponse): Promise<void> {
  // A page elsewhere that had its own name point to this computer is turned away.
  const { port } = request.socket.address() as AddressInfo;
  if (request.headers.host !== `${HOST}:${port}` && request.headers.host !== `localhost:${port}`)
    return refuse(site, response, 421, 'This server answers on this computer only');
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return refuse(site, response, 405, 'This server only gives out files');
  const path = pathOf(request.url ?? '/');
  const file =
    path === undefined ? undefined : await site.files.find(path, String(request.headers['accept-encoding'] ?? ''));
  if (!file) return refuse(site, response, 404, 'There is no such file');
  const headers = {
    ...site.headers,
    'Content-Type': file.type,
    ETag: file.etag,
    Vary: 'Accept-Encoding',
    'Cache-Control': file.immutable ? 'public, max-age=31536000, immutable' : 'no-cache',
    ...(file.encoding ? { 'Content-Encoding': file.encoding } : {}),
  };
  if (request.headers['if-none-match'] === file.etag) response.writeHead(304, headers).end();
  else
    response
      .writeHead(200, { ...headers, 'Content-Length': file.body.length })
      .end(request.method === 'HEAD' ? undefined : file.body);
}

/** The path of an address, decoded; undefined where it is none. */
function pathOf(url: string): string | undefined {
  try {
    const path = decodeURIComponent(url.split(/[?#]/, 1)[0]!);
    return path.startsWith('/') ? path : undefined;
  } catch {
    return undefined;
  }
}

function refuse({ headers }: Site, response: ServerResponse, status: number, why: string): void {
  if (response.headersSent) response.destroy();
  else
    response
      .writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' })
      .end(`${why}\n`);
}

/** Addresses that start with `prefix` ("/", "/samples/") are files of `folder`. */
export interface Mount {
  readonly prefix: string;
  readonly folder: string;
}

export interface FileAnswer {
  readonly body: Buffer;
  readonly type: string;
  readonly etag: string;
  readonly encoding?: 'br' | 'gzip';
  /** True where the name carries a hash of the contents: it never changes. */
  readonly immutable: boolean;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
  '.xml': 'text/xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};
const COMPRESSED = new Set(['.html', '.js', '.mjs', '.css', '.json', '.svg', '.wasm', '.xml']);
const WORTH_COMPRESSING = 4096;
const HASHED = /\.[0-9a-f]{8,}\./;

interface Loaded {
  readonly stamp: string;
  readonly body: Buffer;
  readonly etag: string;
  readonly smaller: Map<'br' | 'gzip', Buffer>;
}

/**
 * Files of a few folders as the answer to a web request: nothing outside them, with what is unchanged not sent again.
 * Of our own, since the kept library for it, sirv 3, follows a link out of its folder, sends compressed only what
 * was compressed before, and serves one folder: most of what is here would have to stand around it.
 */
class StaticFiles {
  private readonly loaded = new Map<string, Loaded>();
  private readonly mounts: readonly Mount[];

  constructor(mounts: readonly Mount[]) {
    // The longest prefix first, so that "/" is the last resort.
    this.mounts = [...mounts].sort((a, b) => b.prefix.length - a.prefix.length);
  }

  /** The file of a path ("/samples/wing.xlsx"), a folder's index.html for one that ends in "/"; undefined where there is none. */
  async find(path: string, accepts: string): Promise<FileAnswer | undefined> {
    const file = await this.locate(path);
    if (file === undefined) return undefined;
    const loaded = await this.load(file);
    const encoding = (['br', 'gzip'] as const).find((one) => accepts.includes(one) && loaded.smaller.has(one));
    return {
      body: encoding ? loaded.smaller.get(encoding)! : loaded.body,
      type: TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream',
      etag: loaded.etag,
      immutable: HASHED.test(file),
      ...(encoding ? { encoding } : {}),
    };
  }

  private async locate(path: string): Promise<string | undefined> {
    const mount = this.mounts.find(({ prefix }) => path.startsWith(prefix));
    if (!mount) return undefined;
    const inside = path.slice(mount.prefix.length) + (path.endsWith('/') ? 'index.html' : '');
    // Hidden files, parent folders and other systems' separators are nobody's address.
    if (/[\0\\:]/.test(inside) || inside.split('/').some((part) => part.startsWith('.'))) return undefined;
    try {
      const folder = await realpath(mount.folder);
      // Links are followed first, so that one cannot lead out of the folder.
      const file = await realpath(join(folder, inside));
      return file.startsWith(folder + sep) && (await stat(file)).isFile() ? file : undefined;
    } catch {
      return undefined;
    }
  }

  private async load(file: string): Promise<Loaded> {
    const { mtimeMs, size } = await stat(file);
    const stamp = `${mtimeMs} ${size}`;
    const known = this.loaded.get(file);
    if (known?.stamp === stamp) return known;
    const body = await readFile(file);
    // Weak: the same for the file and its smaller forms.
    const etag = `W/"${createHash('sha256').update(body).digest('base64url').slice(0, 22)}"`;
    const loaded: Loaded = { stamp, body, etag, smaller: new Map() };
    this.loaded.set(file, loaded);
    if (body.length >= WORTH_COMPRESSING && COMPRESSED.has(extname(file).toLowerCase())) void compress(loaded);
    return loaded;
  }
}

/** Made beside the first answer, which does not wait for it. */
async function compress({ body, smaller }: Loaded): Promise<void> {
  smaller.set('gzip', await promisify(gzip)(body));
  smaller.set('br', await promisify(brotliCompress)(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 6 } }));
}
