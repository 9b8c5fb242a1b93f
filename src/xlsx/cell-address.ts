/** Column of a cell's address ("AB12" → 27) without the cost of a pattern: a large sheet has a million of them. -1 where it is none. */
export function columnOf(address: string): number {
  let column = 0;
  let at = 0;
  for (; at < address.length; at++) {
    const code = address.charCodeAt(at) & 0xdf;
    if (code < 65 || code > 90) break;
    column = column * 26 + (code - 64);
  }
  return at === 0 || at > 3 || at === address.length ? -1 : column - 1;
}
