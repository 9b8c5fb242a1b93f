/** The whole form as it stands: each field read, the function called, the formula's text made. */
import type { Definition, UnitSystem } from '../../../functions';
import type { Figure } from '../../../functions/drawings';
import { WorkbookError, type Argument } from '../../../sheet';
import { onSheet } from '../../../sheet/formula';
import { t } from '../../locale';
import { refusal } from '../../shared/refusal';
import { fieldsOf } from './definitions';
import { labelledFigure } from './dimensions';
import { formulaPieces, type FormulaPiece } from './formula-pieces';
import { outcomeOf, type Given, type Outcome } from './outcome';
import { isOneCell, isWhole, placesIn, type Place } from './places';
import { readArgument, type Source } from './read-argument';
import { readTypedArgument, type TypedArgument } from './typed';

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
  const isName = nameTest(source);
  const list = fieldsOf(definition);
  const read = await Promise.all(
    list.map(async (parameter): Promise<FieldReading> => {
      const entry = entries[parameter.name];
      const typed = readTypedArgument(parameter, entry ? textOn(entry, source.from.sheet, isName) : '', units, isName);
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

export const nameTest = ({ facts }: Pick<Source, 'facts'>): ((word: string) => boolean) => {
  const names = new Set(facts.names.map(({ name }) => name.toLowerCase()));
  return (word) => names.has(word.toLowerCase());
};

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
  const whole = {
    sheet: '',
    row: 0,
    column: 0,
    rows: node.bottom.at - node.top.at + 1,
    columns: node.right.at - node.left.at + 1,
  };
  return isWhole(whole)
    ? t(
        '“{typed}” is a whole column or row, and every cell of it would give a result: name the rows that the list has',
        { typed: typed.text },
      )
    : undefined;
}
