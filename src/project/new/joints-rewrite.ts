/**
 * Joints of an older sheet that are to look into the table of own rivets: the formulas that Tarebook made are written
 * again, the columns that have come since are added, and what a person has written otherwise is left and named.
 */
import { labelIn, type UnitSystem } from '../../core/quantity';
import { cellName, columnName, isBlank, type Cell, type CellInput, type Edit } from '../../sheet';
import { tryFormula, type FormulaNode } from '../../sheet/formula';
import { partsOf } from './formula-terms';
import { JOINTS, type JointKey } from '../forms';
import { readHead, type FormHead } from '../rows';
import type { OwnSystem } from '../units';
import { LOOKS, type Letters } from './plan';
import { jointFormulas } from './joints-sheet';

export interface JointsRewrite {
  readonly edits: readonly Edit[];
  /** Cells that are given a formula. */
  readonly formulas: number;
  /** Labels of the columns that are added. */
  readonly added: readonly string[];
  /** Cells whose formula is a person's own: "O12". */
  readonly left: readonly string[];
}

export interface OldJoints {
  readonly cells: readonly (readonly Cell[])[];
  readonly formulas: readonly (readonly (string | null)[])[];
  /** What the formulas are to call the table of own rivets. */
  readonly own: string;
  /** Of a sheet whose labels name no unit. */
  readonly system: OwnSystem;
}

/** Computed columns that are written again, with the function that their formula rests on. */
const REWRITTEN: Readonly<Partial<Record<JointKey, string | undefined>>> = {
  grip: undefined,
  rivet: 'RIVET.PICK',
  count: 'RIVET.COUNT',
  weight: 'RIVET.WEIGHT',
  cost: 'PRICE.COST',
  check: 'RIVET.CHECK',
  hours: 'RIVET.HOURS',
};
/** Typed columns that the formulas read, and the ones that are computed where they are new. */
const READ: readonly JointKey[] = [
  'sheet1',
  'sheet2',
  'sheet3',
  'style',
  'diameter',
  'run',
  'pitch',
  'edge',
  'repeats',
  'grip',
];
const NEW: readonly JointKey[] = ['rows', 'flangeEdge', 'staggered', 'head', 'sheets', 'sheetMaterial', 'strength'];

/** Undefined where nothing is to be done, or the sheet measures in units of both systems. */
export function jointsRewrite({ cells, formulas, own, system }: OldJoints): JointsRewrite | undefined {
  const head = readHead(JOINTS, cells, JOINTS.sheet, system);
  if (!head || head.system === 'both' || head.refused.length > 0) return undefined;
  const units = head.system;
  const added = [...READ, ...NEW].filter((key) => head.columns[key] === undefined);
  const free = Math.max(0, ...cells.map((row) => row.length));
  const columns: Partial<Record<JointKey, number>> = { ...head.columns };
  added.forEach((key, index) => (columns[key] = free + index));
  const plan = new Plan(head, columns, { cells, formulas }, jointFormulas({ units, own, letters: lettersAt(columns) }));
  for (const key of Object.keys(REWRITTEN) as JointKey[]) if (head.columns[key] !== undefined) plan.again(key, own);
  for (const key of added) plan.column(key, units);
  if (!plan.changed && added.length === 0) return undefined;
  return plan.done(added.map((key) => labelOf(key, units)));
}

const lettersAt = (columns: Readonly<Partial<Record<JointKey, number>>>): Letters<JointKey> =>
  Object.fromEntries(Object.entries(columns).map(([key, column]) => [key, columnName(column)])) as Letters<JointKey>;

function labelOf(key: JointKey, units: UnitSystem): string {
  const { label, dimension } = JOINTS.columns.find((one) => one.key === key)!;
  return labelIn(label, units, dimension);
}

type Read = Pick<OldJoints, 'cells' | 'formulas'>;

class Plan {
  private readonly writes = new Map<string, { row: number; column: number; cell: CellInput }>();
  private readonly looks: Edit[] = [];
  private readonly left: string[] = [];
  private readonly first: number;
  private readonly last: number;
  /** True where a formula that is there does not pass the own rivets. */
  changed = false;

  constructor(
    private readonly head: FormHead<JointKey>,
    private readonly columns: Readonly<Partial<Record<JointKey, number>>>,
    private readonly read: Read,
    private readonly made: ReturnType<typeof jointFormulas>,
  ) {
    this.first = head.header + 1;
    this.last = lastRow(read, head, this.first);
  }

  /** Writes a column's formulas again where they are as Tarebook makes them. */
  again(key: JointKey, own: string): void {
    const column = this.head.columns[key]!;
    /** Last row that a formula above spills to. */
    let spilled = -1;
    for (let row = this.first; row <= this.last; row++) {
      const formula = this.read.formulas[row]?.[column] ?? null;
      if (formula === null) {
        if (row <= spilled) this.formula(key, row);
        continue;
      }
      const ours = isOurs(formula, REWRITTEN[key]);
      spilled = ours ? spillEnd(formula) : -1;
      if (!ours) {
        this.left.push(cellName(row, column));
        continue;
      }
      if (takesRivets(key) && !formula.toLowerCase().includes(own.toLowerCase())) this.changed = true;
      this.formula(key, row);
    }
  }

  /** Adds a column: its label, and its formula in every row where it is computed. */
  column(key: JointKey, units: UnitSystem): void {
    const column = this.columns[key]!;
    this.cell(this.head.header, column, labelOf(key, units));
    this.look(this.head.header, column, 1, LOOKS.header);
    if (this.made[key]) for (let row = this.first; row <= this.last; row++) this.formula(key, row);
    else this.look(this.first, column, this.last - this.first + 1, LOOKS.text);
    const { choices } = JOINTS.columns.find((one) => one.key === key)!;
    if (choices && this.last >= this.first)
      this.looks.push({
        kind: 'choices',
        range: { sheet: this.head.sheet, row: this.first, column, rows: this.last - this.first + 1, columns: 1 },
        choices,
      });
  }

  done(added: readonly string[]): JointsRewrite {
    const { sheet } = this.head;
    const edits = [...this.writes.values()].map(({ row, column, cell }): Edit => ({
      kind: 'write',
      range: { sheet, row, column, rows: 1, columns: 1 },
      cells: [[cell]],
    }));
    const formulas = edits.filter((edit) => edit.kind === 'write' && typeof edit.cells[0]![0] === 'object').length;
    return { edits: [...edits, ...this.looks], formulas, added, left: this.left };
  }

  private formula(key: JointKey, row: number): void {
    this.cell(row, this.columns[key]!, { formula: `=${this.made[key]!(row + 1)}` });
  }

  private cell(row: number, column: number, cell: CellInput): void {
    this.writes.set(`${row} ${column}`, { row, column, cell });
  }

  private look(row: number, column: number, rows: number, look: object): void {
    if (rows > 0)
      this.looks.push({ kind: 'format', range: { sheet: this.head.sheet, row, column, rows, columns: 1 }, ...look });
  }
}

const takesRivets = (key: JointKey): boolean => ['rivet', 'weight', 'cost', 'check'].includes(key);

/** The last row below the header that has something, a spill's waiting rows included. */
function lastRow({ cells, formulas }: Read, head: FormHead<JointKey>, first: number): number {
  const own = Object.values<number | undefined>(head.columns).filter((column) => column !== undefined);
  let last = first - 1;
  for (let row = first; row < Math.max(cells.length, formulas.length); row++)
    for (const column of own) {
      const formula = formulas[row]?.[column] ?? null;
      if (formula !== null || !isBlank(cells[row]?.[column])) last = Math.max(last, row, spillEnd(formula ?? ''));
    }
  return last;
}

/** Row, from 0, that the ranges of a formula reach down to; −1 for a formula of single cells. */
function spillEnd(formula: string): number {
  const node = tryFormula(formula.replace(/^=/, ''));
  const ends = [...(node ? partsOf(node) : [])].flatMap((one) =>
    one.kind === 'reference' && one.sheet === undefined && one.bottom.at > one.top.at ? [one.bottom.at] : [],
  );
  return Math.max(-1, ...ends);
}

/** Optional arguments that Tarebook leaves blank, by function: one that a person has given is a choice of theirs. */
const LEFT_BLANK: Readonly<Record<string, readonly number[]>> = { 'RIVET.PICK': [3, 4], 'RIVET.WEIGHT': [2] };

/** What may stand around the call: guards of blank cells, a number of repeats. */
const AROUND: readonly string[] = ['IF', 'OR', 'AND', 'LEN', 'MAX', 'MIN', 'SUM', 'TARE.RIVET.GRIP'];

/** Minus, percent, names and other sheets are a person's own. */
const isPersons = (part: FormulaNode): boolean =>
  ['sign', 'percent', 'elsewhere', 'name'].includes(part.kind) ||
  (part.kind === 'reference' && part.sheet !== undefined);

/** True for a formula as Tarebook makes it. */
function isOurs(formula: string, name: string | undefined): boolean {
  const node = tryFormula(formula.replace(/^=/, ''));
  if (!node) return false;
  const parts = [...partsOf(node)];
  const calls = parts.filter((one) => one.kind === 'call');
  const [own, ...more] = calls.filter((one) => one.name === `TARE.${name}`);
  if (parts.some(isPersons) || !calls.every((one) => one.name === `TARE.${name}` || AROUND.includes(one.name)))
    return false;
  if (name === undefined) return true;
  if (!own || more.length > 0) return false;
  const { args } = own;
  if (name === 'RIVET.HOURS') return args[1] === undefined || args[1].kind === 'call';
  return (LEFT_BLANK[name] ?? []).every((index) => args[index] === undefined);
}
