/** Formulas that are invented, with texts, names of sheets and of columns that look like everything else. */
import fc from 'fast-check';

/** What a text or a name may hold that a reader could take for something else. */
const lookalike = fc.oneof(
  fc.constantFrom(
    'A1',
    'A1#',
    'Part A1# ',
    '$B$2:C3',
    'SUM(A1)',
    'XLOOKUP(',
    '_xlfn.XLOOKUP(',
    '_xldudf_TARE_AREA_RECT(',
    'TARE.AREA.RECT(',
    'ANCHORARRAY(A1)',
    '_xlfn.ANCHORARRAY(A1)',
    '_xlpm.x',
    'LET(x,1,x)',
    '@A1',
    'Parts!A1',
    'Parts[width]',
    "it's",
    '(',
    ')',
    ',',
    ';',
    '1E3',
    '50%',
    ' two  spaces ',
    'ß é',
  ),
  fc.string({ maxLength: 8 }),
);

const text = lookalike.map((one) => `"${one.replaceAll('"', '""')}"`);

/** A sheet's name holds none of : \ / ? * [ ] and no quote at its ends; @see ECMA-376 part 1, 18.2.19. */
export const sheetName = lookalike
  .map((one) => one.replace(/[:\\/?*[\]\p{C}]/gu, '').replace(/^'+|'+$/g, ''))
  .filter((one) => one !== '');

const quotedSheet = sheetName.map((one) => `'${one.replaceAll("'", "''")}'!`);
const columnName = lookalike.map((one) => one.replace(/\p{C}/gu, '').trim()).filter((one) => one !== '');
const escapedColumn = columnName.map((one) => one.replace(/['#[\]@]/g, "'$&"));

const lock = fc.constantFrom('', '$');
const cell = fc
  .tuple(lock, fc.constantFrom('A', 'b', 'Z', 'AB', 'XFD'), lock, fc.integer({ min: 1, max: 1_048_576 }))
  .map((parts) => parts.join(''));
const before = fc.oneof(
  { weight: 4, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: fc.constantFrom('Parts!', 'Q1!', 'ÄÖ!') },
  { weight: 2, arbitrary: quotedSheet },
);
const area = fc.oneof(
  cell,
  fc.tuple(cell, cell).map(([a, b]) => `${a}:${b}`),
  fc.tuple(lock, lock).map(([a, b]) => `${a}B:${b}C`),
  fc.tuple(lock, lock).map(([a, b]) => `${a}2:${b}9`),
);
const reference = fc.tuple(before, area).map(([sheet, range]) => sheet + range);
const table = fc
  .tuple(
    fc.constantFrom('Parts', 'Sizes_2', 'Größen'),
    fc.oneof(
      escapedColumn.map((one) => `[[${one}]]`),
      // As it is typed: a plain name needs no brackets of its own.
      escapedColumn.map((one) => (/^[\p{L}\p{N}_]+$/u.test(one) ? `[@${one}]` : `[@[${one}]]`)),
      escapedColumn.map((one) => `[[#Headers],[${one}]]`),
      fc.tuple(escapedColumn, escapedColumn).map(([a, b]) => `[[${a}]:[${b}]]`),
      fc.constantFrom('[#All]', '[]', '[width]'),
    ),
  )
  .map((parts) => parts.join(''));

const number = fc.oneof(
  fc.constantFrom('0', '1E3', '.5', '5.', '2.5e-7', '12', '100%'),
  fc.integer({ min: 0, max: 99999 }).map(String),
);
const leaf = fc.oneof(
  { weight: 3, arbitrary: reference },
  { weight: 2, arbitrary: text },
  { weight: 2, arbitrary: number },
  { weight: 2, arbitrary: table },
  { weight: 1, arbitrary: fc.constantFrom('TRUE', 'false', '#N/A', '#REF!', 'width', 'LOG10', 'R1C1', '{1,-2;3,"x"}') },
  { weight: 1, arbitrary: fc.tuple(before, cell).map(([sheet, one]) => `${sheet}${one}#`) },
);

const space = fc.constantFrom('', '', '', ' ', '\n');
const name = fc.constantFrom(
  'SUM',
  'IF',
  'XLOOKUP',
  'FILTER',
  'STDEV.S',
  'LOG10',
  'TARE.AREA.RECT',
  'TARE.CG.ARM',
  'FOREIGN.THING',
);

/** A formula without its "=". */
export const anyFormula: fc.Arbitrary<string> = fc.letrec<{ formula: string }>((tie) => ({
  formula: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    leaf,
    fc
      .tuple(tie('formula'), fc.constantFrom('+', '-', '*', '/', '^', '&', '=', '<>', '<=', '>'), space, tie('formula'))
      .map(([a, operator, gap, b]) => `${a}${gap}${operator}${b}`),
    tie('formula').map((one) => `(${one})`),
    tie('formula').map((one) => `-${one}`),
    tie('formula').map((one) => `@(${one})`),
    fc
      .tuple(name, fc.array(tie('formula'), { minLength: 1, maxLength: 3 }), space)
      .map(([called, args, gap]) => `${called}(${args.join(`,${gap}`)})`),
  ),
})).formula;
