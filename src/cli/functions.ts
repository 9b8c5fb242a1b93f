import type { Command } from 'commander';
import {
  catalogue,
  exampleFormula,
  FAMILIES,
  findDefinition,
  NAMESPACE,
  signature,
  type Definition,
} from '../functions';
import { EXIT, Stop } from './exit';

export function addFunctions(program: Command): void {
  program
    .command('functions')
    .summary('list the worksheet functions')
    .description('Lists the worksheet functions by family, or explains the ones that are named.')
    .argument('[names...]', 'functions to explain, with or without TARE.')
    .option('--json', 'print JSON: name, signature, summary, parameters, result, source')
    .action((names: string[], options: { json?: boolean }) => {
      const chosen = names.length ? names.map(find) : catalogue;
      if (options.json) process.stdout.write(`${JSON.stringify(chosen.map(toJson), null, 2)}\n`);
      else process.stdout.write(names.length ? `${chosen.map(explain).join('\n\n')}\n` : list());
    });
}

function find(name: string): Definition {
  const found = findDefinition(name);
  if (!found) throw new Stop(EXIT.refused, `There is no function ${name}; tarebook functions lists them`);
  return found;
}

function list(): string {
  return FAMILIES.map((family) => {
    const members = catalogue.filter((definition) => definition.family === family);
    return members.length
      ? `${family}\n${members.map((one) => `  ${signature(one)}\n      ${one.summary}\n`).join('')}`
      : '';
  })
    .filter(Boolean)
    .join('\n');
}

function explain(definition: Definition): string {
  const { summary, parameters, result, formula, source, limits = [], examples } = definition;
  return [
    signature(definition),
    `  ${summary}`,
    ...parameters.map(({ name, help, takes }) => `  ${name}: ${help}; takes ${takes('in-lb')}`),
    `  gives: ${result.help}`,
    ...(formula ? [`  formula: ${formula}`] : []),
    `  source: ${source}`,
    ...limits.map((limit) => `  note: ${limit}`),
    ...examples.map((example) => `  example: ${exampleFormula(definition, example)}`),
  ].join('\n');
}

function toJson(definition: Definition): object {
  return {
    name: `${NAMESPACE}.${definition.name}`,
    family: definition.family,
    signature: signature(definition),
    summary: definition.summary,
    parameters: definition.parameters.map((parameter) => ({
      name: parameter.name,
      help: parameter.help,
      takes: parameter.takes('in-lb'),
      optional: parameter.optional,
      ...(parameter.dimension ? { dimension: parameter.dimension } : {}),
    })),
    result: definition.result,
    rowWise: definition.rowWise,
    ...(definition.formula ? { formula: definition.formula } : {}),
    source: definition.source,
    ...(definition.limits ? { limits: definition.limits } : {}),
    examples: definition.examples.map((example) => exampleFormula(definition, example)),
  };
}
