/** Order of designations: runs of digits by their number, so that -9 comes before -10; needs no locale of the machine. */
export function naturalOrder(a: string, b: string): number {
  const [left, right] = [a, b].map((text) => text.match(/\d+|\D+/g) ?? []);
  for (let at = 0; at < Math.min(left!.length, right!.length); at++) {
    const [one, other] = [left![at]!, right![at]!];
    const byNumber = /^\d/.test(one) && /^\d/.test(other) ? Number(one) - Number(other) : 0;
    if (byNumber !== 0) return byNumber;
    if (one !== other && !(/^\d/.test(one) && /^\d/.test(other))) return one < other ? -1 : 1;
  }
  return left!.length - right!.length;
}
