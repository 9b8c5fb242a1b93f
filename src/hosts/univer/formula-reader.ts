/**
 * The engine's reader of formulas, in the place of its own. Moving rows, filling, pasting, colouring and the help at
 * the cursor all ask it what a formula consists of; it answers with pieces that join to the very text, whatever that
 * text is, so that only references ever change. It makes no trees: nothing is calculated by the engine.
 */
import { LexerTreeBuilder, sequenceNodeType, type ISequenceNode } from '@univerjs/engine-formula';
import { memoized } from '../../core/memoized';
import { moved, tokens, type Token, type TokenKind } from '../../sheet/formula';

type SequenceNode = string | ISequenceNode;

/** Formulas whose pieces are remembered: those of a sheet's rows are asked for again and again. */
const REMEMBERED = 20_000;

export class FormulaReader extends LexerTreeBuilder {
  private readonly remembered = memoized(nodesOf, REMEMBERED);

  /** The pieces of a formula, with or without its "=". */
  override sequenceNodesBuilder(formula: string): SequenceNode[] {
    // Those that ask change what they are given.
    return this.remembered(bare(formula)).map((node) => (typeof node === 'string' ? node : { ...node }));
  }

  override moveFormulaRefOffset(formula: string, columns: number, rows: number, ignoreAbsolute = false): string {
    return ignoreAbsolute
      ? super.moveFormulaRefOffset(formula, columns, rows, true)
      : `=${moved(bare(formula), rows, columns)}`;
  }

  /** How many closing brackets a formula lacks. */
  override checkIfAddBracket(formula: string): number {
    return Math.max(0, openCalls(tokens(bare(formula))).length);
  }

  /** The function whose arguments the cursor is in, and which of them. */
  override getFunctionAndParameter(
    formula: string,
    index: number,
  ): { functionName: string; paramIndex: number } | undefined {
    const before = tokens(bare(formula).slice(0, Math.max(0, index)));
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

/** The brackets that are open at the end of some tokens. */
function openCalls(all: readonly Token[]): OpenCall[] {
  const open: OpenCall[] = [];
  let braces = 0;
  all.forEach(({ kind }, index) => {
    const before = all[index - 1];
    if (kind === 'open') open.push({ name: before?.kind === 'call' ? before.text : undefined, argument: 0 });
    else if (kind === 'close') open.pop();
    else if (kind === 'openArray') braces++;
    else if (kind === 'closeArray') braces--;
    else if (kind === 'comma' && braces === 0 && open.length > 0) open.at(-1)!.argument++;
  });
  return open;
}

function nodesOf(text: string): readonly SequenceNode[] {
  const all = tokens(text);
  const nodes: SequenceNode[] = [];
  for (let index = 0; index < all.length;) {
    const [nodeType, count] = nodeAt(all, index);
    const { start } = all[index]!;
    const end = all[index + count]?.start ?? text.length;
    const token = text.slice(start, end);
    nodes.push(nodeType === undefined ? token : { nodeType, token, startIndex: start, endIndex: end - 1 });
    index += count;
  }
  return nodes;
}

const TYPES: Partial<Record<TokenKind, sequenceNodeType>> = {
  text: sequenceNodeType.STRING,
  number: sequenceNodeType.NUMBER,
  call: sequenceNodeType.FUNCTION,
  table: sequenceNodeType.TABLE,
  // While a name is typed it may become a function: the list of functions is offered for this kind alone.
  name: sequenceNodeType.FUNCTION,
};

/** What begins at a token, and how many tokens it takes; undefined for what nobody asks about. */
function nodeAt(all: readonly Token[], index: number): readonly [type: sequenceNodeType | undefined, count: number] {
  const { kind, text } = all[index]!;
  if (kind === 'sheet') {
    // In another workbook, or on several sheets: these cells are not this workbook's, or do not move with its rows.
    const length = /^'?\[|^[^']*:/.test(text) ? 0 : referenceLength(all, index + 1);
    return length > 0 ? [sequenceNodeType.REFERENCE, length + 1] : [undefined, 1];
  }
  const isElsewhere = all[index - 1]?.kind === 'sheet';
  const length = isElsewhere ? 0 : referenceLength(all, index);
  if (length > 0) return [sequenceNodeType.REFERENCE, length];
  if (kind === 'table') return [sequenceNodeType.TABLE, all[index + 1]?.kind === 'bracket' ? 2 : 1];
  return kind === 'name' && /^(true|false)$/i.test(text) ? [undefined, 1] : [TYPES[kind], 1];
}

/** Tokens that A1, A1:B2, A:A or 1:1 take from here on; 0 where no reference begins here. */
function referenceLength(all: readonly Token[], index: number): 0 | 1 | 3 {
  const kind = all[index]?.kind;
  if (kind === 'columns' || kind === 'rows') return 1;
  if (kind !== 'cell') return 0;
  return all[index + 1]?.text === ':' && all[index + 2]?.kind === 'cell' ? 3 : 1;
}
