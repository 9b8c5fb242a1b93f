/** The catalogue as functions of the embedded spreadsheet engine, and as the help that its formula bar shows. */
import {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  FunctionType,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
  type BaseValueObject,
  type IFunctionInfo,
} from '@univerjs/engine-formula';
import { call, catalogue, exampleFormula, NAMESPACE, type Definition } from '../../functions';
import { CellError, isErrorCode, type Argument, type Cell, type Result } from '../../sheet';
import type { ErrorMessages } from './messages';

type FunctionClass = new (name: string) => BaseFunction;

/** Pairs of class and name, as the engine's configuration takes them. */
export function engineFunctions(messages: ErrorMessages): [FunctionClass, string][] {
  return catalogue.map((definition) => [engineFunction(definition, messages), `${NAMESPACE}.${definition.name}`]);
}

function engineFunction(definition: Definition, messages: ErrorMessages): FunctionClass {
  return class extends BaseFunction {
    // The engine refuses calls outside these bounds with a bare #N/A; call() says what is missing.
    override minParams = 0;
    override maxParams = 255;

    override calculate(...variants: BaseValueObject[]): BaseValueObject {
      const result = call(definition, variants.map(toArgument));
      messages.record(this.unitId ?? '', this.subUnitId ?? '', this.row, this.column, result);
      return this.toVariant(result);
    }

    private toVariant(result: Result): BaseValueObject {
      if (!Array.isArray(result)) return toValueObject(result);
      return ArrayValueObject.create({
        calculateValueList: result.map((row) => row.map(toValueObject)),
        rowCount: result.length,
        columnCount: result[0]?.length ?? 0,
        unitId: this.unitId ?? '',
        sheetId: this.subUnitId ?? '',
        row: this.row,
        column: this.column,
      });
    }
  };
}

function toArgument(variant: BaseValueObject): Argument {
  return variant.isArray()
    ? variant.getArrayValue().map((row) => row.map((one) => toCell(one ?? null)))
    : toCell(variant);
}

function toCell(variant: BaseValueObject | null | undefined): Cell {
  if (!variant || variant.isNull()) return null;
  if (variant.isError()) {
    const code = (variant as ErrorValueObject).getErrorType();
    return new CellError(isErrorCode(code) ? code : '#VALUE!');
  }
  return variant.getValue();
}

function toValueObject(cell: Cell): BaseValueObject {
  if (typeof cell === 'number') return NumberValueObject.create(cell);
  if (typeof cell === 'string') return StringValueObject.create(cell);
  if (typeof cell === 'boolean') return BooleanValueObject.create(cell);
  if (cell instanceof CellError) return ErrorValueObject.create(cell.code as ErrorType, cell.message);
  return NullValueObject.create();
}

/** What the formula bar's autocomplete and argument help show of each function. */
export function functionInfos(): IFunctionInfo[] {
  return catalogue.map((definition) => ({
    functionName: `${NAMESPACE}.${definition.name}`,
    functionType: FunctionType.User,
    description: [definition.summary, definition.formula ?? '', `Source: ${definition.source}`]
      .filter(Boolean)
      .join(' · '),
    abstract: definition.summary,
    functionParameter: definition.parameters.map((parameter, index) => ({
      name: parameter.name,
      detail: `${parameter.help} · takes ${parameter.takes('in-lb')}`,
      example: exampleArgument(definition, index),
      require: parameter.optional ? 0 : 1,
      repeat: 0,
    })),
  }));
}

/** One argument of the first example, as it would be typed; '' where it is left out there. */
function exampleArgument(definition: Definition, index: number): string {
  const [example] = definition.examples;
  const argument = example?.args[index];
  if (argument === undefined || argument === null) return '';
  const whole = exampleFormula(definition, { args: [argument], gives: null });
  return whole.slice(whole.indexOf('(') + 1, -1);
}
