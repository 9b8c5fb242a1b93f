import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { catalogue, findDefinition, type Definition, type Parameter } from '../../../../src/functions';
import { evaluate } from '../../../../src/calculation';
import { fieldsOf } from '../../../../src/pane/views/formula/definitions';
import { formulaPieces } from '../../../../src/pane/views/formula/reading';
import { readTypedArgument } from '../../../../src/pane/views/formula/argument';
import { cellNumber, setLocale } from '../../../../src/pane/locale';
import { CellError, rangeName, type Cell, type Matrix, type Result, type SheetModel } from '../../../../src/sheet';
import { parseFormula, type FormulaNode } from '../../../../src/sheet/formula';

afterEach(() => setLocale());

/** "=TARE.FLAT.CHANNEL(B12,0.75,0.75,0.025,0.125)" */
const formulaText = (...of: Parameters<typeof formulaPieces>): string =>
  formulaPieces(...of)
    .map(({ text }) => text)
    .join('');
const channel = findDefinition('FLAT.CHANNEL')!;
const parameter = (definition: string, name: string): Parameter =>
  findDefinition(definition)!.parameters.find((one) => one.name === name)!;
/** What stands in the formula for what is typed; what is wrong in words. */
function written(
  definition: string,
  name: string,
  text: string,
  units: 'in-lb' | 'mm-kg' = 'in-lb',
): string | undefined {
  const typed = readTypedArgument(parameter(definition, name), text, units, (word) => word === 'skin');
  return typed.kind === 'blank' ? undefined : typed.kind === 'wrong' ? `wrong: ${typed.message}` : typed.text;
}

describe('a field in the formula', () => {
  it.each([
    ['2.5', '2.5'],
    ['3/32', '0.09375'],
    ['1 1/4', '1.25'],
    ['20 mm', '0.78740157480315'],
    ['  7 ', '7'],
    ['1e-7', '1E-7'],
    ['', undefined],
    ['B5', 'B5'],
    ['$B$5', '$B$5'],
    ['B5:B40', 'B5:B40'],
    ['Parts!B5', 'Parts!B5'],
    ["'Left wing'!B5", "'Left wing'!B5"],
    ['Parts[Area]', 'Parts[Area]'],
    ['skin', 'skin'],
    ['=B5*2', 'B5*2'],
    ['= B5+1/8', 'B5+1/8'],
    ['{1;2;3}', '{1;2;3}'],
  ])('a length: %j is %s', (typed, text) => expect(written('FLAT.CHANNEL', 'web', typed)).toBe(text));

  it.each([
    ['web', 'ten'],
    ['web', '=B5+'],
    ['web', '=B5)'],
    ['web', '3 kg'],
  ])('%s: %j is refused', (name, typed) => expect(written('FLAT.CHANNEL', name, typed)).toMatch(/^wrong: /));

  it('reads numbers by the locale, and writes them with a dot', () => {
    setLocale({ language: 'de', numbers: 'de-DE' });
    expect(written('FLAT.CHANNEL', 'web', '2,5')).toBe('2.5');
    expect(written('WEIGHT.SHEET', 'material', '0,098')).toBe('0.098');
  });

  it('takes a metric form’s numbers in millimetres', () => {
    expect(written('FLAT.CHANNEL', 'web', '63.5', 'mm-kg')).toBe('63.5');
    expect(written('FLAT.CHANNEL', 'web', '2.5 in', 'mm-kg')).toBe('63.5');
  });

  it.each([
    ['WEIGHT.SHEET', 'material', '6061-T6', '"6061-T6"'],
    ['WEIGHT.SHEET', 'material', '2024-T3 clad', '"2024-T3 clad"'],
    ['WEIGHT.SHEET', 'material', '0.098', '0.098'],
    ['WEIGHT.SHEET', 'material', 'C12', 'C12'],
    ['WEIGHT.SHEET', 'material', '"C12"', '"C12"'],
    ['RIVET.WEIGHT', 'rivet', 'MS20470AD4-4', '"MS20470AD4-4"'],
    ['AIRFOIL.AREA', 'outline', '0012', '"0012"'],
    ['PRICE.EACH', 'item', 'Sheet .025 "O"', '"Sheet .025 ""O"""'],
    ['BEND.ALLOWANCE', 'angle', '90°', '90'],
    ['RIVET.COUNT', 'staggered', 'TRUE', 'TRUE'],
    ['RIVET.PICK', 'style', 'flush', '"flush"'],
    ['RIVET.GRIP', 'thicknesses', 'C2:E2', 'C2:E2'],
  ])('%s, %s: %j is %s', (definition, name, typed, text) => expect(written(definition, name, typed)).toBe(text));
});

describe('the formula', () => {
  it('has its arguments in order, and metric said last', () => {
    const args = ['B12', '0.75', '0.75', '0.025', '0.125'];
    expect(formulaText(channel, args, 'in-lb')).toBe('=TARE.FLAT.CHANNEL(B12,0.75,0.75,0.025,0.125)');
    expect(formulaText(channel, args, 'mm-kg')).toBe('=TARE.FLAT.CHANNEL(B12,0.75,0.75,0.025,0.125,"mm-kg")');
  });

  it('leaves an omitted argument blank between commas where a later one is given, and none at its end', () => {
    const holes = findDefinition('AREA.HOLES')!;
    expect(formulaText(holes, ['3', undefined, '0.25'], 'in-lb')).toBe('=TARE.AREA.HOLES(3,,0.25)');
    expect(formulaText(holes, ['3', undefined, undefined], 'in-lb')).toBe('=TARE.AREA.HOLES(3)');
    expect(formulaText(holes, ['3', undefined, undefined], 'mm-kg')).toBe('=TARE.AREA.HOLES(3,,,"mm-kg")');
    expect(formulaText(findDefinition('RIVET.HOURS')!, ['100', '2'], 'mm-kg')).toBe('=TARE.RIVET.HOURS(100,2)');
  });

  it('names what is still missing', () => {
    const pieces = formulaPieces(channel, ['B12'], 'in-lb');
    expect(pieces.map(({ text }) => text).join('')).toBe('=TARE.FLAT.CHANNEL(B12,leg_a,leg_b,thickness,radius)');
    expect(pieces.filter(({ missing }) => missing).map(({ text }) => text)).toEqual([
      'leg_a',
      'leg_b',
      'thickness',
      'radius',
    ]);
  });

  it('is read back as what was typed', () => {
    const typed = fc.oneof(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => ({ value: Number(value.toPrecision(15)) + 0 })),
      fc.string({ minLength: 1, maxLength: 40 }).map((value) => ({ value })),
    );
    fc.assert(
      fc.property(fc.array(typed, { minLength: 5, maxLength: 5 }), (values) => {
        const args = values.map(({ value }) => {
          const read = readTypedArgument(
            parameter('PRICE.EACH', 'item'),
            typeof value === 'number' ? `=${value}` : `"${value.replaceAll('"', '""')}"`,
            'in-lb',
          );
          if (read.kind !== 'value' && read.kind !== 'formula') throw new Error(JSON.stringify(read));
          return read.text;
        });
        const node = parseFormula(formulaText(channel, args, 'in-lb').slice(1));
        expect(node).toMatchObject({ kind: 'call', name: 'TARE.FLAT.CHANNEL' });
        (node as Extract<FormulaNode, { kind: 'call' }>).args.forEach((arg, index) =>
          expect(constant(arg!)).toBe(values[index]!.value),
        );
      }),
    );
  });
});

const constant = (node: FormulaNode): Cell =>
  node.kind === 'sign' ? -(constant(node.of) as number) : node.kind === 'value' ? node.value : null;

/** An example as it would be filled in: blocks stand on a sheet and are referred to, all else is typed. */
function filledIn(definition: Definition): { readonly formula: string; readonly data: SheetModel } {
  const cells: SheetModel['cells'] = [];
  let column = 0;
  const args = fieldsOf(definition).map((field, index) => {
    const argument = definition.examples[0]!.args[index] ?? null;
    let text: string;
    if (Array.isArray(argument)) {
      text = `Data!${rangeName({ row: 0, column, rows: argument.length, columns: argument[0]!.length })}`;
      argument.forEach((line, r) => line.forEach((value, c) => ((cells[r] ??= [])[column + c] = { value })));
      column += argument[0]!.length + 1;
    } else
      text =
        argument === null
          ? ''
          : argument === true
            ? 'TRUE'
            : argument === false
              ? 'FALSE'
              : typeof argument === 'number'
                ? cellNumber(argument)
                : String(argument);
    const typed = readTypedArgument(field, text, 'in-lb');
    if (typed.kind === 'wrong') throw new Error(`${field.name}: ${typed.message}`);
    return typed.kind === 'blank' ? undefined : typed.text;
  });
  const units = definition.examples[0]!.args[fieldsOf(definition).length];
  return {
    formula: formulaText(definition, args, units === 'mm-kg' ? 'mm-kg' : 'in-lb'),
    data: { name: 'Data', cells, tables: [] },
  };
}

describe('the first example of every function, filled into its form, gives its value in a sheet', () => {
  const near = (got: Cell | undefined, wanted: Cell, within: number | undefined): void => {
    if (typeof wanted === 'number')
      expect(Math.abs((got as number) - wanted), `got ${String(got)}, wanted ${wanted}`).toBeLessThanOrEqual(
        within ?? Math.max(Math.abs(wanted) * 1e-9, 1e-12),
      );
    else if (wanted instanceof CellError) expect(got).toBeInstanceOf(CellError);
    else expect(got === '' ? null : got).toEqual(wanted === '' ? null : wanted);
  };
  it.each(catalogue.map((definition) => [definition.name, definition] as const))('%s', async (_name, definition) => {
    const { formula, data } = filledIn(definition);
    const { gives, within } = definition.examples[0]!;
    const result: Result = evaluate(formula, { sheets: [data], names: [], styles: [] });
    const rows = (value: Cell | Matrix): Matrix => (Array.isArray(value) ? value : [[value]]);
    expect(rows(result).map((line) => line.length)).toEqual(rows(gives).map((line) => line.length));
    rows(gives).forEach((line, r) => line.forEach((wanted, c) => near(rows(result)[r]![c], wanted, within)));
  });
});
