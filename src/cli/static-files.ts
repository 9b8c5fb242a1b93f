/**
 * Files of a few folders as the answer to a web request: nothing outside them, with what is unchanged not sent again.
 * Of our own, since the kept library for it, sirv 3, follows a link out of its folder, sends compressed only what
 * was compressed before, and serves one folder: most of what is here would have to stand around it.
 */
import { createHash } from 'node:crypto';
import { readFile, realpath, stat } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

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

export class StaticFiles {
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
    const type = TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';
    return {
      body: encoding ? loaded.smaller.get(encoding)! : loaded.body,
      type,
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
