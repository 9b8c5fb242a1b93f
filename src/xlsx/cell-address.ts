/** Column of a cell's address ("AB12" → 27) without the cost of a regular expression, since a large sheet has a million of them; -1 where the text is not an address. */
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

/** Row of a cell's address ("AB12" → 11); -1 where the text is not an address. */
export function rowOf(address: string): number {
  let row = 0;
  let at = 0;
  while ((address.charCodeAt(at) & 0xdf) >= 65 && at < address.length) at++;
  const first = at;
  for (; at < address.length; at++) {
    const digit = address.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return -1;
    row = row * 10 + digit;
  }
  return at === first ? -1 : row - 1;
}
