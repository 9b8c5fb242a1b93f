/** What the formula bar offers and helps with: the catalogue, and the ordinary functions that are calculated here. */
import type { Injector } from '@univerjs/core';
import { FunctionType, type IFunctionInfo } from '@univerjs/engine-formula';
import { IDescriptionService } from '@univerjs/sheets-formula';
import { knowsFunction } from '../../calculation';
import { catalogue, exampleFormula, NAMESPACE, type Definition } from '../../functions';

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

/** Takes from the engine's list what would be an error in its cell here. */
export function offerKnownFunctions(injector: Injector): void {
  const offered = injector.get(IDescriptionService);
  const unknown = [...offered.getDescriptions().values()].flatMap(({ functionName, functionType }) =>
    functionType === FunctionType.User || knowsFunction(functionName) ? [] : [functionName],
  );
  offered.unregisterDescriptions(unknown);
}

/** One argument of the first example, as it would be typed; '' where it is left out there. */
function exampleArgument(definition: Definition, index: number): string {
  const [example] = definition.examples;
  const argument = example?.args[index];
  if (argument === undefined || argument === null) return '';
  const whole = exampleFormula(definition, { args: [argument], gives: null });
  return whole.slice(whole.indexOf('(') + 1, -1);
}
