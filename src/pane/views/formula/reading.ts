/** The whole form as it stands: each field read, the function called, the formula's text made. */
import { InputError } from '../../../core/input-error';
import { call, NAMESPACE, unitsPlace, type Definition, type Parameter, type UnitSystem } from '../../../functions';
import { figureFor, type Figure } from '../../../functions/drawings';
import { CellError, isBlank, WorkbookError, type Argument, type Cell, type Matrix } from '../../../sheet';
import { onSheet, textLiteral } from '../../../sheet/formula';
import { t, writeNumber } from '../../locale';
import { refusal } from '../../shared/refusal';
import { readArgument, readTypedArgument, type Source, type TypedArgument } from './argument';
import { fieldsOf, takesUnits } from './definitions';
import { decimals } from './formula-words';
import { isOneCell, isWhole, placesIn, type Place } from './places';

/** A field as it was filled in. */
export interface Entry {
  readonly text: string;
  /** The sheet that was shown when it was typed: what its references mean. */
  readonly sheet: string | undefined;
}

export type Entries = Readonly<Record<string, Entry>>;

export interface FieldReading {
  readonly typed: TypedArgument;
  /** What the cells hold, where it refers to some. */
  readonly held?: Argument;
  /** The cells themselves, where it is a plain reference. */
  readonly place?: Place;
  readonly wrong?: string;
}

export interface FormReading {
  readonly definition: Definition;
  /** What was read of each field, by parameter. */
  readonly fields: Readonly<Record<string, FieldReading>>;
  readonly outcome: Outcome;
  readonly pieces: readonly FormulaPiece[];
  /** The formula with its "=", once nothing is missing or wrong. */
  readonly formula?: string;
  /** All cells that it reads. */
  readonly places: readonly Place[];
  readonly figure?: Figure;
}

export const NOTHING_READ = (definition: Definition, units: UnitSystem): FormReading => {
  const nothing = fieldsOf(definition).map((): Given => ({ state: 'blank' }));
  const figure = labelledFigure(definition, nothing);
  return {
    definition,
    fields: {},
    places: [],
    pieces: formulaPieces(definition, [], units),
    outcome: outcomeOf(definition, nothing, units).outcome,
    ...(figure ? { figure } : {}),
  };
};

/** What a field shows on another sheet than the one on which it was filled in: its references name their sheet. */
export function textOn({ text, sheet }: Entry, here: string | undefined, isName: (word: string) => boolean): string {
  if (sheet === undefined || here === undefined || sheet === here || text.trimStart().startsWith('"')) return text;
  if (text.trimStart().startsWith('=')) return onSheet(text, sheet);
  return refersOnly(text, isName) ? onSheet(text, sheet) : text;
}

/** A parameter of no kind in particular: is the text a reference whatever the field takes? */
const refersOnly = (text: string, isName: (word: string) => boolean): boolean =>
  readTypedArgument(ANY, text, 'in-lb', isName).kind === 'formula';
const ANY = {
  name: '',
  help: '',
  kind: 'text',
  shape: 'cell',
  optional: true,
  zeroIsNoValue: false,
  takes: () => '',
  read: () => undefined,
} as const;

export async function readEntries(
  definition: Definition,
  entries: Entries,
  units: UnitSystem,
  source: Source,
): Promise<FormReading> {
  const list = fieldsOf(definition);
  const read = await Promise.all(
    list.map(async (parameter): Promise<FieldReading> => {
      const entry = entries[parameter.name];
      const text = entry ? textOn(entry, source.from.sheet, source.isName) : '';
      const typed = readTypedArgument(parameter, text, units, source.isName);
      if (typed.kind === 'wrong') return { typed, wrong: typed.message };
      if (typed.kind !== 'formula') return { typed };
      let cells;
      try {
        cells = await readArgument(typed.node, typed.text, source);
      } catch (error) {
        // No such sheet: it is this field's fault alone.
        if (error instanceof WorkbookError && error.code !== 'host') return { typed, wrong: refusal(error) };
        throw error;
      }
      const wrong = cells?.place && refusedPlace(definition, parameter.shape, cells.place, typed);
      return {
        typed,
        ...(cells ? { held: cells.argument } : {}),
        ...(cells?.place ? { place: cells.place } : {}),
        ...(wrong === undefined ? {} : { wrong }),
      };
    }),
  );
  const given = read.map(givenBy);
  const judged = outcomeOf(definition, given, units);
  const fields = Object.fromEntries(
    list.map(({ name }, index): [string, FieldReading] => [
      name,
      judged.wrong[name] === undefined ? read[index]! : { ...read[index]!, wrong: judged.wrong[name] },
    ]),
  );
  const args = read.map(({ typed }) => (typed.kind === 'value' || typed.kind === 'formula' ? typed.text : undefined));
  const pieces = formulaPieces(definition, args, units);
  // A cell's content can be fixed in the sheet afterwards; what is written into the formula must be right now.
  const complete =
    judged.outcome.kind !== 'missing' &&
    !read.some(({ wrong }) => wrong !== undefined) &&
    !list.some(({ name }, index) => judged.wrong[name] !== undefined && read[index]!.typed.kind === 'value');
  const figure = labelledFigure(definition, given);
  return {
    definition,
    fields,
    outcome: judged.outcome,
    pieces,
    places: read.flatMap(({ typed, wrong }) =>
      typed.kind === 'formula' && wrong === undefined ? placesIn(typed.node, source.facts, source.from) : [],
    ),
    ...(complete ? { formula: pieces.map(({ text }) => text).join('') } : {}),
    ...(figure ? { figure } : {}),
  };
}

function givenBy({ typed, held, wrong }: FieldReading): Given {
  if (wrong !== undefined) return { state: 'wrong' };
  switch (typed.kind) {
    case 'blank':
      return { state: 'blank' };
    case 'wrong':
      return { state: 'wrong' };
    case 'value':
      return { state: 'read', argument: typed.cell };
    case 'formula':
      return held === undefined ? { state: 'unread' } : { state: 'read', argument: held };
  }
}

/** A whole column where each of its rows would give a result. */
function refusedPlace(
  definition: Definition,
  shape: string,
  place: Place,
  typed: Extract<TypedArgument, { kind: 'formula' }>,
): string | undefined {
  const { node } = typed;
  if (!definition.rowWise || shape === 'block' || node.kind !== 'reference' || isOneCell(place)) return undefined;
  const [rows, columns] = [node.bottom.at - node.top.at + 1, node.right.at - node.left.at + 1];
  return isWhole({ ...place.range, rows, columns })
    ? t(
        '“{typed}” is a whole column or row, and every cell of it would give a result: name the rows that the list has',
        { typed: typed.text },
      )
    : undefined;
}

type Outcome =
  /** Fields without which there is no result. */
  | { readonly kind: 'missing'; readonly parameters: readonly string[] }
  /** Something is wrong: at a field, or in the call as a whole. */
  | { readonly kind: 'wrong'; readonly message?: string }
  /** An argument cannot be computed here; the workbook itself may do it. */
  | { readonly kind: 'unread' }
  | { readonly kind: 'value'; readonly cell: Cell }
  | {
      readonly kind: 'cells';
      readonly cells: Matrix;
      readonly errors: number;
      readonly firstError?: { readonly row: number; readonly message: string };
    };

/** An argument as the form has it: blank, wrong, not to be computed here, or there. */
type Given = { readonly state: 'blank' | 'wrong' | 'unread' } | { readonly state: 'read'; readonly argument: Argument };

/** Calls the function, as the sheet will. `wrong` is what it says of a field, by parameter. */
function outcomeOf(
  definition: Definition,
  given: readonly Given[],
  units: UnitSystem,
): { readonly outcome: Outcome; readonly wrong: Readonly<Record<string, string>> } {
  const fields = fieldsOf(definition);
  const wrong: Record<string, string> = {};
  fields.forEach((parameter, place) => {
    const one = given[place];
    const message = one?.state === 'read' ? refused(parameter, one.argument, units) : undefined;
    if (message !== undefined) wrong[parameter.name] = message;
  });
  if (Object.keys(wrong).length > 0 || given.some(({ state }) => state === 'wrong'))
    return { outcome: { kind: 'wrong' }, wrong };
  const missing = fields.filter(({ optional }, place) => !optional && (given[place]?.state ?? 'blank') === 'blank');
  if (missing.length > 0) return { outcome: { kind: 'missing', parameters: missing.map(({ name }) => name) }, wrong };
  if (given.some(({ state }) => state === 'unread')) return { outcome: { kind: 'unread' }, wrong };

  const args: Argument[] = given.map((one) => (one.state === 'read' ? one.argument : null));
  if (takesUnits(definition)) args.splice(unitsPlace(definition.parameters), 0, units);
  const result = call(definition, args);
  if (result instanceof CellError) {
    const at = parameterIn(definition, result.message);
    const message = result.message || result.code;
    return at === undefined
      ? { outcome: { kind: 'wrong', message }, wrong }
      : { outcome: { kind: 'wrong' }, wrong: { [at]: message } };
  }
  if (!Array.isArray(result)) return { outcome: { kind: 'value', cell: result }, wrong };
  const failed = result.flatMap((line, row) =>
    line.filter((cell) => cell instanceof CellError).map((error) => ({ row, message: error.message || error.code })),
  );
  return {
    outcome: { kind: 'cells', cells: result, errors: failed.length, ...(failed[0] ? { firstError: failed[0] } : {}) },
    wrong,
  };
}

/** Why a parameter takes no such argument; what only the whole call can tell is left to it. */
function refused(parameter: Parameter, argument: Argument, units: UnitSystem): string | undefined {
  // The message behind an error cell is of the function that failed there, and not of this one.
  if (argument instanceof CellError) return t('The cell holds the error {code}', { code: argument.code });
  if (!Array.isArray(argument) && isBlank(argument)) return undefined;
  try {
    if (parameter.shape === 'block') parameter.readBlock!(Array.isArray(argument) ? argument : [[argument]], units);
    else if (!Array.isArray(argument)) parameter.read(argument, units);
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

/** The field that a message names: "web: got …", "weights, row 3: got …". */
const parameterIn = (definition: Definition, message: string): string | undefined =>
  fieldsOf(definition).find(({ name }) => message.startsWith(`${name}:`) || message.startsWith(`${name}, row `))?.name;

/** A piece of the formula as it is shown: one that is still to be filled in is named by its parameter. */
interface FormulaPiece {
  readonly text: string;
  readonly missing?: true;
}

/**
 * The formula in pieces, with its "=": English function names and a comma between arguments, as every host's port takes
 * them.
 * @param args by field, in the form of a formula; undefined where there is none
 * @internal
 */
export function formulaPieces(
  definition: Definition,
  args: readonly (string | undefined)[],
  units: UnitSystem,
): FormulaPiece[] {
  const given = fieldsOf(definition).map(({ name, optional }, place): FormulaPiece => {
    const text = args[place];
    return text === undefined && !optional ? { text: name, missing: true } : { text: text ?? '' };
  });
  // Metric has to be said; inch and pound are what functions take.
  if (takesUnits(definition))
    given.splice(unitsPlace(definition.parameters), 0, { text: units === 'in-lb' ? '' : textLiteral(units) });
  while (given.length > 0 && given.at(-1)!.text === '') given.pop();
  return [
    { text: `=${NAMESPACE}.${definition.name}(` },
    ...given.flatMap((piece, index) => (index === 0 ? [piece] : [{ text: ',' }, piece])),
    { text: ')' },
  ];
}

/** Numbers of a block that are drawn at most: the corners of a polygon. */
const MOST = 400;
const MOST_DECIMALS = 6;

/**
 * The figure with the user's numbers at its dimensions; in proportion as soon as all that it needs is there.
 * Of a column the first row is drawn.
 */
function labelledFigure(definition: Definition, given: readonly Given[]): Figure | undefined {
  const known: Record<string, number> = {};
  const values: (number | undefined)[] = [];
  let complete = true;
  fieldsOf(definition).forEach(({ name, kind, shape, optional }, place) => {
    const one = given[place];
    const argument = one?.state === 'read' ? one.argument : null;
    if (shape === 'block') {
      const numbers = Array.isArray(argument) ? argument.flat().filter((cell) => typeof cell === 'number') : [];
      if (numbers.length <= MOST) values.push(...numbers);
      return;
    }
    if (kind !== 'number' && kind !== 'integer') return;
    const value = firstNumber(argument);
    values.push(value);
    if (value !== undefined) known[name] = value;
    else if (!optional) complete = false;
  });
  return figureFor(definition.name, complete ? values : [], (name, computed) => {
    const value = known[name] ?? computed;
    return value === undefined ? undefined : `${name} = ${writeNumber(value, decimals(value, MOST_DECIMALS))}`;
  });
}

/** The first number of a column, or the cell's own. */
const firstNumber = (argument: Argument): number | undefined =>
  (Array.isArray(argument) ? argument.flat() : [argument]).find((cell) => typeof cell === 'number');
