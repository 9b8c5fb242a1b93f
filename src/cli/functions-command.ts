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
import { EXIT, Stop } from './terminal';

export function addFunctions(program: Command): void {
  program
    .command('functions')
    .summary('list the worksheet functions, or search them')
    .description(
      'Lists the worksheet functions by family, explains the ones that are named, or searches names and summaries for words.',
    )
    .argument('[names...]', 'functions to explain, with or without TARE., or words to search for')
    .option('--json', 'print JSON: name, signature, summary, parameters, result, source')
    .action(async (names: string[], options: { json?: boolean }) => {
      const { named, chosen } = await choose(names);
      if (options.json) process.stdout.write(`${JSON.stringify(chosen.map(toJson), null, 2)}\n`);
      else process.stdout.write(named ? `${chosen.map(explain).join('\n\n')}\n` : list(chosen));
    });
}

/**
 * Functions by their names; else those in whose help all the words are, first those that have them in name and summary.
 * `named` is true where every function is named, and none is found by a word.
 */
async function choose(
  names: readonly string[],
): Promise<{ readonly named: boolean; readonly chosen: readonly Definition[] }> {
  if (names.length === 0) return { named: false, chosen: catalogue };
  const found = names.map(findDefinition);
  if (found.every((one) => one !== undefined)) return { named: true, chosen: found };
  const words = names.map((name) => name.toLowerCase());
  const having = (text: (definition: Definition) => string): Definition[] =>
    catalogue.filter((one) => words.every((word) => text(one).toLowerCase().includes(word)));
  const first = having(({ name, family, summary }) => `${NAMESPACE}.${name} ${family} ${summary}`);
  const chosen = [...new Set([...first, ...having(explain)])];
  if (chosen.length) return { named: false, chosen };
  const unknown = names.filter((_name, index) => !found[index]);
  const { nearFunctions } = await import('../calculation');
  const near = unknown.flatMap(nearFunctions).filter((name) => findDefinition(name));
  const hint = near.length ? `Did you mean ${near.join(' or ')}?` : 'tarebook functions lists them all.';
  throw new Stop(
    EXIT.refused,
    `No function is named ${unknown.join(' or ')}, and none has ${words.length > 1 ? 'these words' : 'this word'} in its help. ${hint}`,
  );
}

const list = (chosen: readonly Definition[]): string =>
  FAMILIES.map((family) => {
    const members = chosen.filter((definition) => definition.family === family);
    return members.length
      ? `${family}\n${members.map((one) => `  ${signature(one)}\n      ${one.summary}\n`).join('')}`
      : '';
  })
    .filter(Boolean)
    .join('\n');

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

const toJson = (definition: Definition): object => ({
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
});
