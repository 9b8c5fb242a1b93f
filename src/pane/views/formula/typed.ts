/** What was typed into a field, and what stands for it in the formula. */
import type { Parameter, UnitSystem } from '../../../functions';
import type { Cell } from '../../../sheet';
import { unitIn } from '../../../core/quantity';
import {
  FormulaError,
  numberLiteral,
  parseFormula,
  textLiteral,
  tryFormula,
  type FormulaNode,
} from '../../../sheet/formula';
import { readNumber, t } from '../../locale';

export type TypedArgument =
  | { readonly kind: 'blank' }
  /** A number or a text of the field itself. */
  | { readonly kind: 'value'; readonly text: string; readonly cell: Exclude<Cell, null> }
  /** A reference, or an expression. */
  | { readonly kind: 'formula'; readonly text: string; readonly node: FormulaNode }
  | { readonly kind: 'wrong'; readonly message: string };

const LONGEST_TEXT = 255;

/**
 * Reads a field.
 * @param isName whether a word is a name of the workbook, which stands for cells
 */
// eslint-disable-next-line complexity -- one way of typing after the other
export function readTypedArgument(
  parameter: Parameter,
  typed: string,
  units: UnitSystem,
  isName: (word: string) => boolean = () => false,
): TypedArgument {
  const text = typed.trim();
  if (text === '') return { kind: 'blank' };
  if (parameter.choices?.includes(text)) return value(text);
  if (text.startsWith('=')) return expression(text.slice(1).trim());
  if (text.startsWith('{')) return expression(text);
  const own = /^"((?:[^"]|"")*)"$/.exec(text)?.[1];
  if (own !== undefined) return value(own.replaceAll('""', '"'));
  const node = tryFormula(text);
  if (node && isReference(node, isName)) return { kind: 'formula', text, node };
  if (parameter.kind === 'flag') return flag(parameter, text);
  const bare = parameter.dimension ? text : text.replace(/\s*°$/, '');
  if (
    parameter.kind === 'number' ||
    parameter.kind === 'integer' ||
    (mayBeNumber(parameter) && /^[-+−.,\d\s’']*\d$/.test(text))
  ) {
    const { dimension } = parameter;
    const read =
      dimension && parameter.kind !== 'text'
        ? readNumber(bare, { dimension, unit: unitIn(dimension, units) })
        : readNumber(bare);
    return 'wrong' in read
      ? { kind: 'wrong', message: read.wrong }
      : { kind: 'value', text: numberLiteral(read.value), cell: read.value };
  }
  return value(text);
}

/** A density, or a block of cells of which there is one; what is a text by nature keeps its noughts: "0012". */
const mayBeNumber = ({ kind, shape, dimension }: Parameter): boolean =>
  shape === 'block' || (kind === 'text' && dimension !== undefined);

function value(text: string): TypedArgument {
  if (text.length > LONGEST_TEXT)
    return {
      kind: 'wrong',
      message: t('A text in a formula has up to {most} characters: put it into a cell', { most: LONGEST_TEXT }),
    };
  return { kind: 'value', text: textLiteral(text), cell: text };
}

function flag(parameter: Parameter, text: string): TypedArgument {
  try {
    const yes = parameter.read(text, 'in-lb') as boolean;
    return { kind: 'value', text: yes ? 'TRUE' : 'FALSE', cell: yes };
  } catch (error) {
    return { kind: 'wrong', message: error instanceof Error ? error.message : String(error) };
  }
}

function expression(text: string): TypedArgument {
  try {
    return { kind: 'formula', text, node: parseFormula(text) };
  } catch (error) {
    if (error instanceof FormulaError) return { kind: 'wrong', message: error.message };
    throw error;
  }
}

function isReference(node: FormulaNode, isName: (word: string) => boolean): boolean {
  return (
    node.kind === 'reference' ||
    node.kind === 'table' ||
    node.kind === 'spill' ||
    (node.kind === 'name' && (node.sheet !== undefined || isName(node.name)))
  );
}
