/**
 * The files that are generated from the catalogue and lie beside the functions bundle: a page for each function, and the
 * metadata by which Excel knows the functions before it has run any of them. Format: Microsoft, "Manually create JSON
 * metadata for custom functions".
 */
import { catalogue, type Definition, type Parameter } from '../../functions';
import { pageName, referencePages } from '../../functions/reference';
import { REFERENCE } from './reference-folder';

/** File names and texts, for an add-in served from `host`. */
export function catalogueFiles(host: string): Record<string, string> {
  const pages = Object.entries(referencePages()).map(([name, html]) => [`${REFERENCE}/${name}`, html] as const);
  return { 'functions.json': `${JSON.stringify(functionsMetadata(host), null, 1)}\n`, ...Object.fromEntries(pages) };
}

interface ParameterMetadata {
  readonly name: string;
  readonly description: string;
  readonly type: 'any';
  readonly dimensionality: 'scalar' | 'matrix';
  readonly optional?: true;
}

export interface Metadata {
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description: string;
    readonly helpUrl: string;
    readonly parameters: readonly ParameterMetadata[];
    readonly result: { readonly type: 'any'; readonly dimensionality: 'matrix' };
  }[];
}

/** Microsoft, "Naming guidelines for custom functions": three characters at least. */
const SHORTEST_NAME = 3;

/** Excel's own limit for what it shows of a function or an argument. */
const LONGEST_DESCRIPTION = 255;

/**
 * Metadata of every function.
 * @param host where the functions are served from, an https address without a closing slash
 */
export function functionsMetadata(host: string, definitions: readonly Definition[] = catalogue): Metadata {
  return {
    // Without it Excel answers for us as soon as one cell of a column is an error, and the good rows are lost.
    // Older Excels (before CustomFunctionsRuntime 1.3) pass over it and do just that.
    allowErrorForDataTypeAny: true,
    functions: definitions
      .filter(({ name }) => name.length >= SHORTEST_NAME)
      .map((definition) => ({
        id: definition.name,
        name: definition.name,
        description: cut(definition.summary),
        helpUrl: `${host}/functions/${REFERENCE}/${pageName(definition)}`,
        parameters: definition.parameters.map((parameter) => parameterMetadata(definition, parameter)),
        // Always an array: a column in gives a column out, and one value is an array of one.
        result: { type: 'any', dimensionality: 'matrix' },
      })),
  };
}

function parameterMetadata(definition: Definition, parameter: Parameter): ParameterMetadata {
  return {
    name: parameter.name,
    description: cut(`${parameter.help} · takes ${parameter.takes('in-lb')}`),
    // Our own reading of cells says what is wrong with one; Excel's type check would say only #VALUE!.
    type: 'any',
    dimensionality: takesBlock(definition, parameter) ? 'matrix' : 'scalar',
    ...(parameter.optional ? { optional: true } : {}),
  };
}

/** True where the argument may be more than one cell. */
const takesBlock = ({ rowWise }: Definition, { name, shape }: Parameter): boolean =>
  name !== 'units' && (rowWise || shape !== 'cell');

const cut = (text: string): string =>
  text.length <= LONGEST_DESCRIPTION ? text : `${text.slice(0, LONGEST_DESCRIPTION - 1)}…`;
