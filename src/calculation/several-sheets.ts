/** References through several sheets: SUM(Jan:Mar!B2) is SUM(Jan!B2,Feb!B2,Mar!B2). */
import { tryFormula, type FormulaNode } from '../sheet/formula';
import type { Book } from './book';
import { noSheet } from './values';

/** Functions that take them. Source: Microsoft, "Create a reference to the same cell range on multiple worksheets". */
const TAKE_SEVERAL = new Set(
  (
    'AVERAGE AVERAGEA COUNT COUNTA MAX MAXA MIN MINA PRODUCT STDEV STDEV.P STDEV.S STDEVA STDEVP STDEVPA SUM VAR ' +
    'VAR.P VAR.S VARA VARP VARPA'
  ).split(' '),
);

/** Arguments with each reference through several sheets as one reference a sheet. */
export function overSheets(
  name: string,
  args: readonly (FormulaNode | undefined)[],
  book: Book,
): readonly (FormulaNode | undefined)[] {
  if (!TAKE_SEVERAL.has(name) || !args.some((arg) => arg?.kind === 'elsewhere')) return args;
  return args.flatMap((arg) => (arg?.kind === 'elsewhere' ? (onEach(arg.text, book) ?? [arg]) : [arg]));
}

/** undefined where the text is no such reference. */
function onEach(text: string, book: Book): FormulaNode[] | undefined {
  const at = text.lastIndexOf('!');
  const quoted = text.slice(0, at);
  const names = quoted.startsWith("'") ? quoted.slice(1, -1).replaceAll("''", "'") : quoted;
  const [from, to, ...more] = names.split(':');
  const reference = tryFormula(text.slice(at + 1));
  if (/[[\]]/.test(names) || from === undefined || to === undefined || more.length || reference?.kind !== 'reference')
    return undefined;
  const [first, last] = [book.grid(from), book.grid(to)];
  if (!first || !last) return [{ kind: 'value', value: noSheet(first ? to : from) }];
  const [low, high] = [Math.min(first.index, last.index), Math.max(first.index, last.index)];
  return book.grids.slice(low, high + 1).map((grid) => ({ ...reference, sheet: grid.sheet.name }));
}
