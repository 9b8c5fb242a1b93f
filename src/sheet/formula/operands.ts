/** Where an operand of a formula begins and ends among its tokens, for signs that belong to the whole of it: A1#, @A1:A9. */
import type { Token } from './tokens';

/** The index of the first token of the operand that ends at `last`; undefined where none ends there. */
export function operandStart(all: readonly Token[], last: number): number | undefined {
  const token = all[last];
  if (!token) return undefined;
  if (token.text === '#') return operandStart(all, last - 1);
  let first = last;
  if (token.kind === 'close') {
    const open = matching(all, last, -1);
    if (open === undefined) return undefined;
    // f(1)(2): what stands before the bracket is called.
    const before = all[open - 1];
    if (before?.kind === 'call') first = open - 1;
    else if (before?.kind === 'close') return operandStart(all, open - 1);
    else return open;
  } else if (token.kind === 'bracket') first = all[last - 1]?.kind === 'table' ? last - 1 : last;
  else if (!['cell', 'columns', 'rows', 'name'].includes(token.kind)) return undefined;
  return all[first - 1]?.kind === 'sheet' ? first - 1 : first;
}

/** The index of the last token of the operand that begins at `first`, ranges (A1:A9) as one; undefined where none does. */
export function operandEnd(all: readonly Token[], first: number): number | undefined {
  let last = primaryEnd(all, first);
  while (last !== undefined && all[last + 1]?.text === ':' && all[last + 1]!.kind === 'operator')
    last = primaryEnd(all, last + 2);
  return last;
}

// eslint-disable-next-line complexity -- one kind of token after the other
function primaryEnd(all: readonly Token[], first: number): number | undefined {
  let last: number | undefined = all[first]?.kind === 'sheet' ? first + 1 : first;
  switch (all[last]?.kind) {
    case 'cell':
    case 'columns':
    case 'rows':
    case 'name':
    case 'bracket':
    case 'error':
      break;
    case 'table':
    case 'call':
      last++;
      if (all[last]?.kind === 'open') last = matching(all, last, 1);
      break;
    case 'open':
      last = matching(all, last, 1);
      break;
    default:
      return undefined;
  }
  while (last !== undefined && (all[last + 1]?.text === '#' || all[last + 1]?.kind === 'open'))
    last = all[last + 1]!.text === '#' ? last + 1 : matching(all, last + 1, 1);
  return last;
}

/** The bracket that belongs to the one at an index, forwards or backwards. */
export function matching(all: readonly Token[], from: number, step: 1 | -1): number | undefined {
  let depth = 0;
  for (let at = from; at >= 0 && at < all.length; at += step) {
    const { kind } = all[at]!;
    if (kind === 'open') depth += step;
    else if (kind === 'close') depth -= step;
    if (depth === 0) return at;
  }
  return undefined;
}
