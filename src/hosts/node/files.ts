/**
 * Workbook files on disk: read with a clear word when that fails, written whole or not at all, into plain files or new
 * ones, and never over one that is read; packed and unpacked by Node.
 */
import { constants } from 'node:fs';
import { access, lstat, open, readdir, readFile, realpath, rename, stat, unlink } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { randomBytes } from 'node:crypto';
import { constants as packing, deflateRawSync, inflateRawSync } from 'node:zlib';
import type { Codec } from '../../xlsx';

/** Thrown where a file cannot be read or written; the message is one line and names the file. */
export class FileError extends Error {
  override readonly name = 'FileError';
}

/** Node's own zlib, several times as fast as script. */
export const nodeCodec: Codec = {
  inflate: (packed, size) => inflateRawSync(packed, { maxOutputLength: Math.max(1, size) }),
  deflate: (content) =>
    deflateRawSync(content, {
      level: content.length > 2 ** 22 ? packing.Z_BEST_SPEED : packing.Z_DEFAULT_COMPRESSION,
    }),
};

const LARGEST = 512 * 2 ** 20;

/** A file's bytes. Throws FileError. */
export async function readBytes(path: string): Promise<Uint8Array> {
  try {
    const info = await stat(path);
    if (info.isDirectory()) throw new FileError(`${path} is a folder, not a workbook`);
    if (!info.isFile()) throw new FileError(`${path} is not a file`);
    if (info.size > LARGEST) throw new FileError(`${path} is larger than ${LARGEST / 2 ** 20} MB`);
    return await readFile(path);
  } catch (error) {
    throw explained(path, error, 'read');
  }
}

/**
 * Writes a file by way of a temporary one in the same folder: whatever happens meanwhile, the path holds
 * the old content or the new, whole. Throws FileError, also where another program has the file open or where it is
 * no plain file.
 */
export async function writeBytes(path: string, bytes: Uint8Array): Promise<void> {
  const target = await plainTarget(path);
  await refuseOpen(target);
  await removeLeftovers(target);
  const temporary = join(dirname(target), `${temporaryPrefix(target)}${randomBytes(4).toString('hex')}.tmp`);
  try {
    const file = await open(temporary, 'wx', await modeOf(target));
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temporary, target);
  } catch (error) {
    await unlink(temporary).catch(() => undefined);
    throw explained(path, error, 'write');
  }
  await syncFolder(dirname(target));
}

const temporaryPrefix = (target: string): string => `.${basename(target)}.`;
const HOUR_MS = 3_600_000;

/** Temporary files of writes that were killed; a fresh one may be another process's at work. */
async function removeLeftovers(target: string): Promise<void> {
  for (const name of await readdir(dirname(target)).catch(() => [])) {
    if (!name.startsWith(temporaryPrefix(target)) || !name.endsWith('.tmp')) continue;
    const path = join(dirname(target), name);
    const info = await stat(path).catch(() => undefined);
    if (info && Date.now() - info.mtimeMs > HOUR_MS) await unlink(path).catch(() => undefined);
  }
}

async function modeOf(target: string): Promise<number> {
  const info = await stat(target).catch(() => undefined);
  if (!info) return 0o666;
  // A rename would replace even a file that may not be written.
  await access(target, constants.W_OK);
  return info.mode & 0o777;
}

/** The rename itself has to reach the disk; where a folder cannot be synced, the system does it in its own time. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

/** Spreadsheet programs leave a file of their own beside a workbook that they have open. */
async function refuseOpen(target: string): Promise<void> {
  for (const lock of [`~$${basename(target)}`, `.~lock.${basename(target)}#`]) {
    const there = await stat(join(dirname(target), lock)).catch(() => undefined);
    if (there)
      throw new FileError(
        `${target} is locked: another program has it open (it left ${lock}); close it there, or give another output file`,
      );
  }
}

function explained(path: string, error: unknown, doing: 'read' | 'write'): FileError {
  if (error instanceof FileError) return error;
  const code = (error as NodeJS.ErrnoException).code ?? '';
  const known: Record<string, string> = {
    ENOENT: doing === 'read' ? `${path} does not exist` : `${dirname(path)} does not exist`,
    ENOTDIR: `${path} does not exist`,
    EISDIR: `${path} is a folder`,
    EACCES: `${path} may not be ${doing === 'read' ? 'read' : 'written'}: no permission`,
    EPERM: `${path} may not be ${doing === 'read' ? 'read' : 'written'}: no permission, or it is open in another program`,
    EBUSY: `${path} is locked: another program has it open`,
    EROFS: `${path} is on a read-only disk`,
    ENOSPC: `${path} was not written: the disk is full; the file is as it was`,
  };
  return new FileError(
    known[code] ?? `${path} could not be ${doing === 'read' ? 'read' : 'written'} (${code || String(error)})`,
    { cause: error },
  );
}

/**
 * The file that a path leads to, through links. Throws FileError where something stands there that is no plain
 * file: what is written replaces it by a rename, and a device or a pipe would be gone.
 */
async function plainTarget(path: string): Promise<string> {
  const link = await lstat(path).catch(() => undefined);
  if (!link) return path;
  const info = await stat(path).catch(() => undefined);
  if (!info) throw new FileError(`${path} is a link to a file that does not exist. Give the name of a file.`);
  if (info.isDirectory()) throw new FileError(`${path} is a folder. Give the name of a file.`);
  if (!info.isFile()) throw new FileError(`${path} is a device, a pipe or a socket. Give the name of a file.`);
  return realpath(path);
}

/**
 * Looks at what a command is going to write before it does any work. Throws FileError where an output is no plain
 * file, is one of the inputs under this or another name (a link, a hard link), or is written twice.
 * @param outputs option (as it is typed) and path of each; an undefined path is no output
 */
export async function checkOutputs(
  outputs: readonly (readonly [option: string, path: string | undefined])[],
  inputs: readonly string[],
): Promise<void> {
  const taken = new Map<string, string>();
  for (const input of inputs) for (const key of await keysOf(input)) taken.set(key, `${input}, which is read`);
  for (const [option, path] of outputs) {
    if (path === undefined) continue;
    await plainTarget(path);
    const keys = await keysOf(path);
    const other = keys.map((key) => taken.get(key)).find((found) => found !== undefined);
    if (other) throw new FileError(`${option} ${path} would overwrite ${other}. Give another file name.`);
    for (const key of keys) taken.set(key, `what ${option} writes`);
  }
}

/** What two names of one file have in common: the file's own number, and its full path where it is not there yet. */
async function keysOf(path: string): Promise<string[]> {
  const info = await stat(path, { bigint: true }).catch(() => undefined);
  const folder = await realpath(dirname(resolve(path))).catch(() => dirname(resolve(path)));
  const full = join(folder, basename(path));
  return info ? [full, `${info.dev}:${info.ino}`] : [full];
}
