/** The ordinary functions that the calculator knows. */
import { aggregateFunctions } from './aggregates';
import { arrayFunctions } from './arrays';
import { complexFunctions } from './complex';
import { conditionalFunctions } from './conditional';
import { convertFunctions } from './convert';
import { countingFunctions, numeralFunctions } from './counting';
import { dateFunctions } from './date';
import type { Family, FunctionSpec } from './define';
import { distributionFunctions } from './distributions';
import { financeFunctions } from './finance';
import { lambdaFunctions } from './lambdas';
import { linearFunctions } from './linear';
import { logicFunctions } from './logic';
import { lookupFunctions } from './lookup';
import { numberFunctions } from './numbers';
import { rankingFunctions } from './ranking';
import { referenceFunctions } from './references';
import { regressionFunctions } from './regression';
import { subtotalFunctions } from './subtotal';
import { textFunctions } from './text';

export const FUNCTIONS: ReadonlyMap<string, FunctionSpec> = new Map(
  [
    aggregateFunctions,
    arrayFunctions,
    complexFunctions,
    conditionalFunctions,
    convertFunctions,
    countingFunctions,
    dateFunctions,
    distributionFunctions,
    numeralFunctions,
    financeFunctions,
    lambdaFunctions,
    linearFunctions,
    logicFunctions,
    lookupFunctions,
    numberFunctions,
    rankingFunctions,
    referenceFunctions,
    regressionFunctions,
    subtotalFunctions,
    textFunctions,
  ].flatMap((family: Family) =>
    Object.entries(family).map(([name, spec]) => [
      name,
      (typeof spec === 'string' ? family[spec] : spec) as FunctionSpec,
    ]),
  ),
);

/** True for an ordinary function that is calculated here, by its name in any case. */
export const knowsFunction = (name: string): boolean => FUNCTIONS.has(name.toUpperCase());
