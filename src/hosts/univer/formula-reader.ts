/**
 * The engine's reader of formulas, in the place of its own. Moving rows, filling, pasting, colouring and the help at
 * the cursor all ask it what a formula consists of; it answers with pieces that join to the very text, whatever that
 * text is, so that only references ever change. It makes no trees: nothing is calculated by the engine.
 */
import { LexerTreeBuilder, sequenceNodeType, type ISequenceNode } from '@univerjs/engine-formula';
import { parseCell } from '../../sheet';
import { LAST_COLUMN, LAST_ROW, moved, pieces, type Piece } from '../../sheet/formula';

type SequenceNode = string | ISequenceNode;

/** Formulas whose pieces are remembered: those of a sheet's rows are asked for again and again. */
const REMEMBERED = 20_000;

export class FormulaReader extends LexerTreeBuilder {
  private readonly remembered = new Map<string, readonly SequenceNode[]>();

  /** The pieces of a formula, with or without its "=". */
  override sequenceNodesBuilder(formula: string): SequenceNode[] {
    const text = bare(formula);
    let nodes = this.remembered.get(text);
    if (!nodes) {
      if (this.remembered.size >= REMEMBERED) this.remembered.clear();
      this.remembered.set(text, (nodes = nodesOf(text)));
    }
    // Those that ask change what they are given.
    return nodes.map((node) => (typeof node === 'string' ? node : { ...node }));
  }

  override moveFormulaRefOffset(formula: string, columns: number, rows: number, ignoreAbsolute = false): string {
    return ignoreAbsolute
      ? super.moveFormulaRefOffset(formula, columns, rows, true)
      : `=${moved(bare(formula), rows, columns)}`;
  }

  /** How many closing brackets a formula lacks. */
  override checkIfAddBracket(formula: string): number {
    return Math.max(0, openCalls(pieces(bare(formula))).length);
  }

  /** The function whose arguments the cursor is in, and which of them. */
  override getFunctionAndParameter(
    formula: string,
    index: number,
  ): { functionName: string; paramIndex: number } | undefined {
    const before = pieces(bare(formula).slice(0, Math.max(0, index)));
    const inside = openCalls(before).findLast(({ name }) => name !== undefined);
    return inside && { functionName: inside.name!, paramIndex: inside.argument };
  }

  override treeBuilder(): undefined {
    return undefined;
  }

  override nodeMakerTest(): undefined {
    return undefined;
  }

  override getNewFormulaWithPrefix(): null {
    return null;
  }

  override getFormulaExprTree(): null {
    return null;
  }
}

/** A formula without its references: what stays as rows and columns move. */
export const shapeOf = (formula: string): string =>
  nodesOf(bare(formula))
    .map((node) =>
      typeof node === 'string' ? node : node.nodeType === sequenceNodeType.REFERENCE ? '\u0001' : node.token,
    )
    .join('')
    .replaceAll('#REF!', '\u0001');

const bare = (formula: string): string => (formula.startsWith('=') ? formula.slice(1) : formula);

interface OpenCall {
  /** undefined: a bracket around a part of a formula. */
  readonly name: string | undefined;
  argument: number;
}

/** The brackets that are open at the end of some pieces. */
function openCalls(all: readonly Piece[]): OpenCall[] {
  const open: OpenCall[] = [];
  let braces = 0;
  all.forEach(({ kind, text }, index) => {
    if (kind !== 'other') return;
    const before = all[index - 1];
    if (text === '(') open.push({ name: before?.kind === 'call' ? before.text : undefined, argument: 0 });
    else if (text === ')') open.pop();
    else if (text === '{') braces++;
    else if (text === '}') braces--;
    else if (text === ',' && braces === 0 && open.length > 0) open.at(-1)!.argument++;
  });
  return open;
}

function nodesOf(text: string): readonly SequenceNode[] {
  const all = pieces(text);
  const nodes: SequenceNode[] = [];
  let start = 0;
  for (let index = 0; index < all.length;) {
    const [type, count] = nodeAt(all, index);
    const token = all
      .slice(index, index + count)
      .map((piece) => piece.text)
      .join('');
    const end = start + token.length;
    nodes.push(type === undefined ? token : { nodeType: type, token, startIndex: start, endIndex: end - 1 });
    start = end;
    index += count;
  }
  return nodes;
}

/** What begins at a piece, and how many pieces it takes; undefined for what nobody asks about. */
function nodeAt(all: readonly Piece[], index: number): readonly [type: sequenceNodeType | undefined, count: number] {
  const { kind, text } = all[index]!;
  if (kind === 'sheet') {
    const isElsewhere = /[[\]:]/.test(text) || all[index - 1]?.kind === 'bracket' || all[index - 1]?.text === ':';
    const length = isElsewhere || all[index + 1]?.text !== '!' ? 0 : referenceLength(all, index + 2);
    return length > 0 ? [sequenceNodeType.REFERENCE, length + 2] : [undefined, 1];
  }
  if (kind === 'text') return [sequenceNodeType.STRING, 1];
  if (kind === 'call') return [sequenceNodeType.FUNCTION, 1];
  if (kind === 'table') return [sequenceNodeType.TABLE, 2];
  if (kind !== 'word' || all[index - 1]?.text === '!') return [undefined, 1];
  const length = referenceLength(all, index);
  if (length > 0) return [sequenceNodeType.REFERENCE, length];
  if (/^[\d.]/.test(text)) return [sequenceNodeType.NUMBER, 1];
  return /^(true|false)$/i.test(text) ? [undefined, 1] : [sequenceNodeType.DEFINED_NAME, 1];
}

const COLUMN = /^\$?[A-Za-z]{1,3}$/;
const ROW = /^\$?\d{1,7}$/;

/** Pieces that A1, A1:B2, A:A or 1:1 take from here on; 0 where no reference begins here. */
function referenceLength(all: readonly Piece[], index: number): 0 | 1 | 3 {
  const word = (at: number): string => (all[at]?.kind === 'word' ? all[at].text : '');
  const first = word(index);
  const last = all[index + 1]?.text === ':' ? word(index + 2) : '';
  if (isCell(first)) return isCell(last) ? 3 : 1;
  return (COLUMN.test(first) && COLUMN.test(last)) || (ROW.test(first) && ROW.test(last)) ? 3 : 0;
}

function isCell(word: string): boolean {
  const cell = parseCell(word);
  return cell !== undefined && cell.row >= 0 && cell.row <= LAST_ROW && cell.column <= LAST_COLUMN;
}
