/** How a command ends. */
export const EXIT = {
  done: 0,
  /** The work was done and its outcome is bad: an error value, cells in error. */
  findings: 1,
  /** A wrong command line, or a file that cannot be read or written: nothing was done. */
  refused: 2,
} as const;

/** Thrown to end a command with a line on stderr. */
export class Stop extends Error {
  constructor(
    readonly code: number,
    message: string,
  ) {
    super(message);
  }
}
