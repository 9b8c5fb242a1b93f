/** The catalogue as custom functions of Excel: arguments as Excel hands them over, results as it takes them. */
import { call, catalogue, type Definition, type Parameter } from '../../functions';
import { CellError, isErrorCode, type Argument, type Cell, type ErrorCode, type Result } from '../../sheet/cell';

/** What Excel's runtime gives a custom functions script; Error is there from CustomFunctionsRuntime 1.2 on. */
export interface CustomFunctionsRuntime {
  associate(id: string, handler: (...args: unknown[]) => unknown): void;
  readonly Error?: new (code: string, message?: string) => Error;
}

/** Errors that Excel lets a function give (an input may hold others). */
const GIVABLE: ReadonlySet<ErrorCode> = new Set<ErrorCode>(['#VALUE!', '#N/A', '#NUM!', '#DIV/0!', '#NULL!']);
/** Errors whose message Excel shows on the cell's error card. */
const WITH_MESSAGE: ReadonlySet<ErrorCode> = new Set<ErrorCode>(['#VALUE!', '#N/A']);

/** Registers every function of the catalogue with Excel. */
export function registerFunctions(
  runtime: CustomFunctionsRuntime,
  definitions: readonly Definition[] = catalogue,
): void {
  for (const definition of definitions) runtime.associate(definition.name, excelHandler(definition, runtime));
}

/**
 * The function as Excel calls it. One value comes back as an array of one, a blank as ''; an error of the
 * whole function is thrown, an error in a row stands in its cell.
 * @internal
 */
export function excelHandler(
  definition: Definition,
  runtime: CustomFunctionsRuntime,
): (...args: unknown[]) => unknown[][] {
  const { parameters } = definition;
  return (...args) => {
    // Excel adds an object of its own behind the arguments that were given.
    const given = args.slice(0, parameters.length).map((argument, index) => toArgument(argument, parameters[index]!));
    return toExcel(call(definition, trimmed(given)), runtime);
  };
}

/** Arguments without the omitted ones at the end. */
const trimmed = (given: Argument[]): Argument[] =>
  given.slice(0, given.findLastIndex((argument) => argument !== null && argument !== undefined) + 1);

function toArgument(given: unknown, parameter: Parameter): Argument {
  const read = parameter.kind === 'choice' ? toChoiceCell : toCell;
  if (!Array.isArray(given)) return read(given);
  const block = given.map((row: unknown) => (Array.isArray(row) ? row.map(read) : [read(row)]));
  // A single cell comes as a block of one where the parameter also takes columns.
  return block.length === 1 && block[0]!.length === 1 ? block[0]![0]! : block;
}

/** A blank cell may come as 0, which no choice can be. */
const toChoiceCell = (given: unknown): Cell => (given === 0 ? null : toCell(given));

function toCell(given: unknown): Cell {
  if (typeof given === 'number' || typeof given === 'string' || typeof given === 'boolean') return given;
  if (given === null || given === undefined || typeof given !== 'object') return null;
  const { code, message } = given as { code?: unknown; message?: unknown };
  // Excel's invocation object has no code; where fewer arguments were passed than declared it stands in their place.
  if (typeof code !== 'string') return null;
  return new CellError(isErrorCode(code) ? code : '#VALUE!', typeof message === 'string' ? message : '');
}

function toExcel(result: Result, runtime: CustomFunctionsRuntime): unknown[][] {
  if (result instanceof CellError) throw toError(result, runtime);
  if (!Array.isArray(result)) return [[result ?? '']];
  if (result.length === 0) return [['']];
  if (!runtime.Error) {
    // No way to put an error into one cell: a text there would be left out of a sum in silence.
    const row = result.findIndex((cells) => cells.some((cell) => cell instanceof CellError));
    if (row >= 0) throw new Error(`Row ${row + 1}: ${String(result[row]!.find((cell) => cell instanceof CellError))}`);
  }
  return result.map((row) => row.map((cell) => (cell instanceof CellError ? toError(cell, runtime) : (cell ?? ''))));
}

function toError(error: CellError, runtime: CustomFunctionsRuntime): Error {
  const code = GIVABLE.has(error.code) ? error.code : '#VALUE!';
  // Excel refuses #REF!, #NAME? and the like as a result: the message then says what the input held.
  const message =
    code === error.code
      ? error.message
      : `An input cell holds ${error.code}${error.message ? `: ${error.message}` : ''}`;
  if (!runtime.Error) return new Error(message || code);
  return WITH_MESSAGE.has(code) && message ? new runtime.Error(code, message) : new runtime.Error(code);
}
