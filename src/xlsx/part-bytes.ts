/** The text of a large part while it is put together: in UTF-8 already, as a string beside its pieces takes several times the memory. */
export class PartBytes {
  private pieces: string[] = [];
  private readonly done: Uint8Array[] = [];

  push(...texts: readonly string[]): void {
    for (const text of texts) this.pieces.push(text);
    if (this.pieces.length >= PIECES) this.encode();
  }

  bytes(): Uint8Array {
    this.encode();
    return joined(this.done);
  }

  private encode(): void {
    this.done.push(encoder.encode(this.pieces.join('')));
    this.pieces = [];
  }
}

/** Pieces that are encoded in one go. */
const PIECES = 8192;
const encoder = new TextEncoder();

/** Texts and bytes one behind the other. */
export function joined(parts: readonly (string | Uint8Array)[]): Uint8Array {
  const all = parts.map((part) => (typeof part === 'string' ? encoder.encode(part) : part));
  const whole = new Uint8Array(all.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of all) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
