/** The local server of the bench, and of the add-in for Excel: on this computer alone, and nothing but its own files. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { StaticFiles, type Mount } from './static-files';

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
  if (request.headers['if-none-match'] === file.etag) {
    response.writeHead(304, headers).end();
    return;
  }
  response.writeHead(200, { ...headers, 'Content-Length': file.body.length });
  response.end(request.method === 'HEAD' ? undefined : file.body);
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
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' });
  response.end(`${why}\n`);
}
