/** The table of ordinary functions: how a file spells them, what they take, whether they spill. */
import { FACTS } from './facts-data';

export interface FunctionFacts {
  /** In capitals: "XLOOKUP". */
  readonly name: string;
  /** Prefix of the name in a file; '' for functions of the format's first edition. */
  readonly filePrefix: '' | '_xlfn.' | '_xlfn._xlws.';
  /** Numbers of arguments; undefined where they are not known. `max` is Infinity for as many as one likes. */
  readonly count: { readonly min: number; readonly max: number } | undefined;
  /** True where the result is a block of cells: the formula is stored as a dynamic array. */
  readonly spills: boolean;
  /** True where arguments are computed as arrays even in a plain formula: SUMPRODUCT(A1:A3*2). */
  readonly overArrays: boolean;
  /** True where equal arguments need not give equal results: NOW, RAND, OFFSET. */
  readonly isVolatile: boolean;
  /** True where the last argument is a function: a LAMBDA, or another function by its bare name. */
  readonly endsWithFunction: boolean;
  /** Whether the parameter (from 0) is one cell: given a range, a plain formula takes the cell of its own row from it. */
  readonly takesCell: (parameter: number) => boolean;
}

const facts = new Map<string, FunctionFacts>();
for (const entry of FACTS.trim().split(/\s+/)) {
  const [name, arguments_, takes, flags = ''] = entry.split(':') as [string, string, string, string?];
  const [head, again] = takes.split('+') as [string, string?];
  facts.set(name, {
    name,
    filePrefix: flags.includes('w') ? '_xlfn._xlws.' : flags.includes('x') ? '_xlfn.' : '',
    count: countOf(arguments_),
    spills: flags.includes('s'),
    overArrays: flags.includes('a'),
    isVolatile: flags.includes('t'),
    endsWithFunction: flags.includes('f'),
    takesCell: (parameter) =>
      (head[parameter] ?? (again ? again[(parameter - head.length) % again.length] : head.at(-1))) === 'c',
  });
}

function countOf(text: string): { min: number; max: number } | undefined {
  if (text === '?') return undefined;
  const [min, max = min] = text.split('-') as [string, string?];
  return { min: Number(min), max: max === '*' ? Infinity : Number(max) };
}

/** What is known of an ordinary function, whatever the case of its name; undefined where there is none of that name. */
export const functionFacts = (name: string): FunctionFacts | undefined => facts.get(name.toUpperCase());

/** All ordinary functions, by name. */
export const allFunctionFacts: ReadonlyMap<string, FunctionFacts> = facts;
