/** A formula that does nothing but call our functions, read far enough to call them again. */
import { findDefinition, NAMESPACE, type Definition } from '../../functions';
import type { Cell, RangeAddress } from '../../sheet';
import { LAST_COLUMN, LAST_ROW, partItems, tryFormula, type FormulaNode } from '../../sheet/formula';

/** A reference to cells: an address, a table's part, or a defined name. */
export type Reference =
  | { readonly kind: 'range'; readonly range: RangeAddress }
  | { readonly kind: 'column'; readonly table: string; readonly column: string; readonly ofRow: boolean }
  | { readonly kind: 'table'; readonly table: string; readonly whole: boolean }
  | { readonly kind: 'name'; readonly name: string };

export type Term =
  | { readonly kind: 'value'; readonly value: Cell }
  | Reference
  | { readonly kind: 'call'; readonly definition: Definition; readonly args: readonly Term[] };

/** The term that a formula ("=TARE.…") on a sheet is; undefined where it holds more than calls, values and references. */
export function callTerm(formula: string, sheet: string): Term | undefined {
  const node = tryFormula(formula.slice(1));
  return node && termOf(node, sheet);
}

function termOf(node: FormulaNode | undefined, sheet: string): Term | undefined {
  switch (node?.kind) {
    case undefined:
      return { kind: 'value', value: null };
    case 'value':
      return node;
    case 'sign':
      return signed(node.negative, termOf(node.of, sheet));
    case 'reference': {
      const { top, left, bottom, right } = node;
      // A whole column is a million cells to ask for.
      if (bottom.at - top.at >= LAST_ROW || right.at - left.at >= LAST_COLUMN) return undefined;
      const size = { rows: bottom.at - top.at + 1, columns: right.at - left.at + 1 };
      return { kind: 'range', range: { sheet: node.sheet ?? sheet, row: top.at, column: left.at, ...size } };
    }
    case 'table':
      return tableTerm(node.table, node.part);
    case 'name':
      return node.sheet === undefined ? { kind: 'name', name: node.name } : undefined;
    case 'call':
      return callOf(node.name, node.args, sheet);
    default:
      return undefined;
  }
}

const signed = (isNegative: boolean, term: Term | undefined): Term | undefined =>
  term?.kind === 'value' && typeof term.value === 'number'
    ? { kind: 'value', value: isNegative ? -term.value : term.value }
    : undefined;

function callOf(name: string, nodes: readonly (FormulaNode | undefined)[], sheet: string): Term | undefined {
  const definition = name.startsWith(`${NAMESPACE}.`) ? findDefinition(name) : undefined;
  if (!definition) return undefined;
  const args: Term[] = [];
  for (const node of nodes) {
    const term = termOf(node, sheet);
    if (!term) return undefined;
    args.push(term);
  }
  return { kind: 'call', definition, args };
}

function tableTerm(table: string, part: string): Term | undefined {
  if (table === '') return undefined;
  const { isRow, items } = partItems(part);
  const areas = items.filter(({ isArea }) => isArea).map(({ name }) => name);
  const columns = items.filter(({ isArea }) => !isArea).map(({ name }) => name);
  const area = areas[0] ?? (isRow ? '#this row' : '#data');
  if (areas.length > 1 || columns.length > 1) return undefined;
  const [column] = columns;
  if (column === undefined)
    return area === '#all' || area === '#data' ? { kind: 'table', table, whole: area === '#all' } : undefined;
  return area === '#this row' || area === '#data'
    ? { kind: 'column', table, column, ofRow: area === '#this row' }
    : undefined;
}
