/** Where a command may write: plain files, or new ones, and never one that it reads. */
import { lstat, realpath, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';

/** Thrown where a file cannot be read or written; the message is one line and names the file. */
export class FileError extends Error {
  override readonly name = 'FileError';
}

/**
 * The file that a path leads to, through links. Throws FileError where something stands there that is no plain
 * file: what is written replaces it by a rename, and a device or a pipe would be gone.
 */
export async function plainTarget(path: string): Promise<string> {
  const link = await lstat(path).catch(() => undefined);
  if (!link) return path;
  const target = await realpath(path).catch(() => undefined);
  const info = target === undefined ? undefined : await stat(target).catch(() => undefined);
  if (target === undefined || !info)
    throw new FileError(`${path} is a link to a file that does not exist. Give the name of a file.`);
  if (info.isDirectory()) throw new FileError(`${path} is a folder. Give the name of a file.`);
  if (!info.isFile()) throw new FileError(`${path} is a device, a pipe or a socket. Give the name of a file.`);
  return target;
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
