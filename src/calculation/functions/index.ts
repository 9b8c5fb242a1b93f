/** The ordinary functions that the calculator knows. */
import type { FunctionSpec } from '../function-spec';
import { aggregateFunctions } from './aggregates';
import { arrayFunctions } from './arrays';
import { complexFunctions } from './complex';
import { conditionalFunctions } from './conditional';
import { convertFunctions } from './convert';
import { countingFunctions } from './counting';
import { databaseFunctions } from './database';
import { dateFunctions } from './date';
import { distributionFunctions } from './distributions';
import { engineeringFunctions } from './engineering';
import { financeFunctions } from './finance';
import { informationFunctions } from './information';
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
import { textPartFunctions } from './text-parts';

export const FUNCTIONS: ReadonlyMap<string, FunctionSpec> = new Map(
  [
    aggregateFunctions,
    arrayFunctions,
    complexFunctions,
    conditionalFunctions,
    convertFunctions,
    countingFunctions,
    databaseFunctions,
    dateFunctions,
    distributionFunctions,
    engineeringFunctions,
    financeFunctions,
    informationFunctions,
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
    textPartFunctions,
  ].flatMap((family) => Object.entries(family)),
);

/** True for an ordinary function that is calculated here, by its name in any case. */
export const knowsFunction = (name: string): boolean => FUNCTIONS.has(name.toUpperCase());
