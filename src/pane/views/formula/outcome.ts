/** What the function gives for what stands in the form, and which field is wrong. */
import { InputError } from '../../../core/input-error';
import { call, unitsPlace, type Definition, type Parameter, type UnitSystem } from '../../../functions';
import { CellError, isBlank, type Argument, type Cell, type Matrix } from '../../../sheet';
import { t } from '../../locale';
import { fieldsOf, takesUnits } from './definitions';

export type Outcome =
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
export type Given =
  { readonly state: 'blank' | 'wrong' | 'unread' } | { readonly state: 'read'; readonly argument: Argument };

export interface Judged {
  readonly outcome: Outcome;
  /** What the function says of a field, by parameter. */
  readonly wrong: Readonly<Record<string, string>>;
}

/** Calls the function, as the sheet will. */
export function outcomeOf(definition: Definition, given: readonly Given[], units: UnitSystem): Judged {
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
  try {
    if (Array.isArray(argument)) {
      if (parameter.shape === 'block') parameter.readBlock!(argument, units);
    } else if (!isBlank(argument)) {
      if (parameter.shape === 'block') parameter.readBlock!([[argument]], units);
      else parameter.read(argument, units);
    }
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

/** The field that a message names: "web: got …", "weights, row 3: got …". */
const parameterIn = (definition: Definition, message: string): string | undefined =>
  fieldsOf(definition).find(({ name }) => message.startsWith(`${name}:`) || message.startsWith(`${name}, row `))?.name;
