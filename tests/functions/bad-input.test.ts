/**
 * The same bad input for every function: missing, blank, text, negative, zero, huge, NaN, wrong shape,
 * error cell. The answer is always a number, a text, a truth value or a typed error with a message;
 * never NaN, Infinity or a throw.
 */
import { describe, expect, it } from 'vitest';
import { call, catalogue, type Definition } from '../../src/functions';
import { CellError, type Argument, type Cell, type Result } from '../../src/sheet';

const BAD: Readonly<Record<string, Argument>> = {
  missing: undefined,
  null: null,
  blank: '',
  text: 'not a number',
  negative: -1,
  zero: 0,
  huge: 1e308,
  NaN: Number.NaN,
  Infinity: Number.POSITIVE_INFINITY,
  truth: true,
  'error cell': new CellError('#REF!'),
  'wrong shape': [
    [1, 2, 3, 4, 5],
    [6, 7, 8, 9, 10],
  ],
  'ragged block': [[1], [2, 3]] as Cell[][],
  'block with an error': [[new CellError('#N/A')], [1]],
  'empty block': [[]],
};

function expectSound(result: Result): void {
  const cells = Array.isArray(result) ? result.flat() : [result];
  for (const cell of cells) {
    if (typeof cell === 'number') expect(Number.isFinite(cell)).toBe(true);
    else if (cell instanceof CellError) expect(cell.message).not.toContain('A fault in Tarebook');
    else expect(['string', 'boolean']).toContain(typeof cell);
  }
}

const good = (definition: Definition): Argument[] => [...definition.examples[0]!.args];

describe.each(catalogue)('$name', (definition) => {
  it.each(Object.entries(BAD))('%s in each place', (_label, bad) => {
    definition.parameters.forEach((_parameter, index) => {
      const args = good(definition);
      args[index] = bad;
      expectSound(call(definition, args));
    });
  });

  it.each(Object.entries(BAD))('%s in every place', (_label, bad) => {
    expectSound(
      call(
        definition,
        definition.parameters.map(() => bad),
      ),
    );
  });

  it('no argument, and one too many', () => {
    expectSound(call(definition, []));
    expect(call(definition, [...definition.parameters.map(() => 1), 1])).toBeInstanceOf(CellError);
  });

  it('a text where the first number belongs is an error that names the parameter', () => {
    const index = definition.parameters.findIndex(
      (parameter) => parameter.kind === 'number' || parameter.kind === 'integer',
    );
    if (index < 0) return;
    const args = good(definition);
    args[index] = 'seven';
    const result = call(definition, args);
    const cell = Array.isArray(result) ? result.flat().find((one) => one instanceof CellError) : result;
    expect(cell).toBeInstanceOf(CellError);
    expect((cell as CellError).message).toContain(`${definition.parameters[index]!.name}: got "seven"; takes `);
  });

  it('an error cell comes through as the same error', () => {
    const args = good(definition);
    args[0] = new CellError('#REF!');
    const result = call(definition, args);
    const cells = Array.isArray(result) ? result.flat() : [result];
    expect(cells.some((cell) => cell instanceof CellError)).toBe(true);
  });
});
