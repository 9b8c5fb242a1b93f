/** Workbook files on disk: read with a clear word when that fails, written whole or not at all. */
import { constants } from 'node:fs';
import { access, open, readdir, readFile, rename, stat, unlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { randomBytes } from 'node:crypto';
import { FileError, plainTarget } from './outputs';

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
    const mode = await modeOf(target);
    const file = await open(temporary, 'wx', mode);
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
  const names = await readdir(dirname(target)).catch(() => []);
  for (const name of names) {
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
