/** The ordinary functions that the calculator knows; a workbook with any other goes to the embedded engine. */
import type { FunctionSpec } from '../function-spec';
import { arrayFunctions } from './arrays';
import { conditionalFunctions } from './conditional';
import { logicFunctions } from './logic';
import { lookupFunctions } from './lookup';
import { numberFunctions } from './numbers';
import { statisticFunctions } from './statistics';
import { textFunctions } from './text';

export const FUNCTIONS: ReadonlyMap<string, FunctionSpec> = new Map(
  [
    numberFunctions,
    statisticFunctions,
    conditionalFunctions,
    logicFunctions,
    lookupFunctions,
    textFunctions,
    arrayFunctions,
  ].flatMap((family) => Object.entries(family)),
);
