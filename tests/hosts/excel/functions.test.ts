/** Functions as Excel calls them: what it hands over by platform, and what it takes back. */
import { describe, expect, it } from 'vitest';
import {
  call,
  catalogue,
  defineRowWise,
  defineWhole,
  number,
  optional,
  text,
  type Definition,
} from '../../../src/functions';
import { CellError } from '../../../src/sheet';
import { excelHandler, registerFunctions, type CustomFunctionsRuntime } from '../../../src/hosts/excel/functions';
import { NotListedError } from '../../../src/core/input-error';

/** The error class as Excel's runtime has it: only #VALUE! and #N/A keep a message. */
class RuntimeError extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message);
  }
  toJSON() {
    return {
      code: this.code,
      message: this.code === '#VALUE!' || this.code === '#N/A' ? this.message || undefined : undefined,
    };
  }
}

const runtime = (): CustomFunctionsRuntime & { handlers: Map<string, (...args: unknown[]) => unknown> } => {
  const handlers = new Map<string, (...args: unknown[]) => unknown>();
  return { handlers, associate: (id, handler) => void handlers.set(id, handler), Error: RuntimeError };
};

/** What Excel's runtime puts behind the arguments. */
const invocation = { functionName: 'AREA.RECT', address: undefined };

const doubled: Definition = defineRowWise({
  name: 'TEST.DOUBLE',
  family: 'Areas',
  summary: 'Twice the length.',
  parameters: [
    number('length', { help: 'a length', dimension: 'length', limits: { above: 0, max: 100 } }),
    optional(number('times', { help: 'how often', limits: { min: 1 } }), 2),
  ],
  result: { kind: 'number', dimension: 'length', help: 'twice the length' },
  source: 'definition',
  examples: [{ args: [1], gives: 2 }],
  compute: (length, times) => {
    if (length === 99) throw new NotListedError('length', length, 'a listed length');
    return length * times;
  },
});
const table: Definition = defineWhole({
  name: 'TEST.TABLE',
  family: 'Mass',
  summary: 'A table.',
  parameters: [text('name', { help: 'a name' })],
  result: { kind: 'table', columns: [{ name: 'name' }, { name: 'value' }], help: 'rows' },
  source: 'definition',
  examples: [{ args: ['x'], gives: [['x', 1]] }],
  compute: (name) =>
    name === 'none'
      ? []
      : [
          [name, 1],
          ['', null],
        ],
});

const run = (definition: Definition, ...args: unknown[]): unknown =>
  excelHandler(definition, runtime())(...args, invocation);
function thrownBy(action: () => unknown): RuntimeError {
  try {
    action();
  } catch (error) {
    return error as RuntimeError;
  }
  throw new Error('nothing was thrown');
}

describe('arguments', () => {
  it('one cell comes as a block of one or as a value, and gives a block of one', () => {
    expect(run(doubled, [[3]], null, null)).toEqual([[6]]);
    expect(run(doubled, 3)).toEqual([[6]]);
  });

  it('the object behind the arguments is no argument, however many were passed', () => {
    expect(run(doubled, [[3]])).toEqual([[6]]);
    expect(run(doubled, [[3]], undefined, undefined)).toEqual([[6]]);
    expect(run(doubled, [[3]], [[3]], 'in-lb')).toEqual([[9]]);
  });

  it.each([[null], [undefined], [''], [[['']]], [[[null]]], [[[0]]]])(
    'a blank as the host passes it (%j) gives a blank',
    (blank) => {
      expect(run(doubled, blank)).toEqual([['']]);
    },
  );

  it('a column keeps its blanks blank and its errors in their rows', () => {
    const result = run(doubled, [[1], [''], [new RuntimeError('#N/A')], [-1], [2]]) as unknown[][];
    expect([result[0], result[1], result[4]]).toEqual([[2], [''], [4]]);
    expect((result[2]![0] as RuntimeError).code).toBe('#N/A');
    expect((result[3]![0] as RuntimeError).code).toBe('#VALUE!');
    expect((result[3]![0] as RuntimeError).message).toBe('length: got -1; takes inches above 0 and up to 100');
  });

  it('a row of cells is answered by a row', () => expect(run(doubled, [[1, 2, 3]])).toEqual([[2, 4, 6]]));

  it('units in any case, and a blank cell for them', () => {
    expect(run(doubled, [[25.4]], null, 'MM-KG')).toEqual([[50.8]]);
    expect(run(doubled, [[25]], null, 0)).toEqual([[50]]);
    expect(run(doubled, [[25]], null, '')).toEqual([[50]]);
  });

  it('gives for every example of the catalogue what the catalogue gives', () => {
    for (const definition of catalogue) {
      for (const { args } of definition.examples) {
        const direct = call(definition, args);
        const passed = args.map((argument) =>
          argument instanceof CellError ? new RuntimeError(argument.code) : argument,
        );
        if (direct instanceof CellError) {
          expect(thrownBy(() => run(definition, ...passed)).code).toBe(direct.code);
          continue;
        }
        const wanted = (Array.isArray(direct) ? direct : [[direct]]).map((row) =>
          row.map((cell) => (cell instanceof CellError ? cell.code : (cell ?? ''))),
        );
        const got = (run(definition, ...passed) as unknown[][]).map((row) =>
          row.map((cell) => (cell instanceof RuntimeError ? cell.code : cell)),
        );
        expect(got, definition.name).toEqual(wanted);
      }
    }
  });
});

describe('results', () => {
  it('an error of the whole function is thrown with its message', () => {
    const error = thrownBy(() => run(doubled, [['three']]));
    expect(error).toBeInstanceOf(RuntimeError);
    expect([error.code, error.message]).toEqual(['#VALUE!', 'length: got "three"; takes inches above 0 and up to 100']);
  });

  it('what is not listed is #N/A with its message', () => {
    const error = thrownBy(() => run(doubled, [[99]]));
    expect([error.code, error.message]).toEqual(['#N/A', 'length: got 99; takes a listed length']);
  });

  it('an input error that Excel refuses as a result becomes #VALUE! and is named', () => {
    const error = thrownBy(() => run(doubled, [[new RuntimeError('#REF!')]]));
    expect([error.code, error.message]).toEqual(['#VALUE!', 'An input cell holds #REF!']);
  });

  it('an input error that Excel takes as a result comes through as it is', () => {
    expect(thrownBy(() => run(doubled, [[new RuntimeError('#DIV/0!')]])).code).toBe('#DIV/0!');
  });

  it('a table spills, its blanks as empty text; no row at all is a blank', () => {
    expect(run(table, 'x')).toEqual([
      ['x', 1],
      ['', ''],
    ]);
    expect(run(table, 'none')).toEqual([['']]);
  });

  it('survives the trip to Excel as JSON, errors in rows included', () => {
    expect(JSON.parse(JSON.stringify(run(doubled, [[1], [-1]])))).toEqual([
      [2],
      [{ code: '#VALUE!', message: 'length: got -1; takes inches above 0 and up to 100' }],
    ]);
  });
});

describe('an Excel without an error class (CustomFunctionsRuntime 1.1)', () => {
  const old: CustomFunctionsRuntime = { associate: () => undefined };

  it('answers as ever where nothing is wrong', () => expect(excelHandler(doubled, old)([[3]])).toEqual([[6]]));

  it('fails as a whole, so that no bad row is left out of a sum in silence', () => {
    expect(() => excelHandler(doubled, old)([[1], [-1]])).toThrow(
      'Row 2: #VALUE! length: got -1; takes inches above 0 and up to 100',
    );
    expect(() => excelHandler(doubled, old)([[-1]])).toThrow('length: got -1');
  });
});

describe('registration', () => {
  it('gives Excel a handler for every function', () => {
    const host = runtime();
    registerFunctions(host);
    expect([...host.handlers.keys()]).toEqual(catalogue.map(({ name }) => name));
    expect(host.handlers.get('AREA.RECT')!([[12]], [[4]], invocation)).toEqual([[48]]);
  });
});
