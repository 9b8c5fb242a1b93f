/** Thrown where a file cannot be read or written; the message is one line and names the file. */
export class FileError extends Error {
  override readonly name = 'FileError';
}
