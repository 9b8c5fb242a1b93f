/** Drop-down lists that refuse other texts, and those that take them: ECMA-376 part 1, 18.3.1.32 (dataValidation). */
import { expect, it } from 'vitest';
import { readWorkbook, writeWorkbook } from '../../src/xlsx';
import { Package } from '../../src/xlsx/package';

const LIST = { range: { sheet: 'Parts', row: 0, column: 0, rows: 1, columns: 1 }, choices: ['a', 'b'] };
const SHEET = 'xl/worksheets/sheet1.xml';

it.each([
  ['showErrorMessage="1"', undefined],
  ['showErrorMessage="true"', undefined],
  ['showErrorMessage="1" errorStyle="stop"', undefined],
  // The attribute's default is false: nothing is shown, and nothing refused.
  ['', true],
  ['showErrorMessage="0"', true],
  ['showErrorMessage="1" errorStyle="warning"', true],
  ['showErrorMessage="1" errorStyle="information"', true],
])('a list with %s is read as open: %s', async (attributes, open) => {
  const bytes = await writeWorkbook({
    sheets: [{ name: 'Parts', cells: [[{ value: 'a' }]], tables: [], validations: [LIST] }],
    names: [],
    styles: [],
  });
  const file = new Package(bytes);
  file.set(SHEET, file.text(SHEET).replace('showErrorMessage="1"', attributes));
  const [list] = readWorkbook(file.save()).sheets[0]!.validations!;
  expect(list!.open).toBe(open);
  expect(list!.choices).toEqual(['a', 'b']);
});
