/** Why a file was refused; the message is one line for the user. */
export type XlsxReason =
  | 'not-a-workbook'
  | 'old-format'
  | 'encrypted'
  | 'macros'
  | 'binary'
  | 'truncated'
  | 'corrupt'
  | 'too-large'
  | 'too-deep'
  | 'unsupported'
  | 'no-sheet'
  | 'no-cell';

/** Thrown for every file that cannot be read or patched. */
export class XlsxError extends Error {
  override readonly name = 'XlsxError';
  constructor(
    readonly reason: XlsxReason,
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
