/** Nothing on the sample workbooks is cut off: measured in the widest of the common fonts. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { textWidth } from '../../src/core/text-width';
import { cellName } from '../../src/sheet';
import { readWorkbook } from '../../src/xlsx';

const FOLDER = new URL('../../sample-workbooks/', import.meta.url);
const samples = readdirSync(FOLDER).filter((name) => name.endsWith('.xlsx') && name !== 'self-check.xlsx');
/** Longer texts are sentences, which run over blank cells or are read in the formula bar. */
const LONGEST = 32;

describe.each(samples)('%s', (name) => {
  const { sheets, styles } = readWorkbook(new Uint8Array(readFileSync(new URL(name, FOLDER))));

  it('has choices that are not cut by the arrow that opens their list', () => {
    const cut = sheets.flatMap((sheet) =>
      (sheet.validations ?? []).flatMap(({ range }) =>
        sheet.cells.slice(range.row, range.row + range.rows).flatMap((line, index): string[] => {
          const { value, style } = line?.[range.column] ?? {};
          const width = sheet.columnWidths?.[range.column];
          if (typeof value !== 'string' || width === undefined || value.length > LONGEST) return [];
          const { bold, size = 11 } = styles[style ?? -1] ?? {};
          // The arrow and the margins of such a cell, as the grid draws it.
          const room = width * 7 + 5 - 30;
          return textWidth(value, (size * 96) / 72, bold) > room
            ? [`${sheet.name}!${cellName(range.row + index, range.column)}: "${value}"`]
            : [];
        }),
      ),
    );
    expect(cut).toEqual([]);
  });

  it('has headers that break between words, and values that are not cut', () => {
    const cut = sheets.flatMap((sheet) =>
      sheet.cells.flatMap((line, row) =>
        line.flatMap((cell, column): string[] => {
          const width = sheet.columnWidths?.[column];
          const next = line[column + 1];
          if (typeof cell?.value !== 'string' || width === undefined) return [];
          const { wrap, bold, size = 11 } = styles[cell.style ?? -1] ?? {};
          const isFree = next === undefined || (next.formula === undefined && (next.value ?? '') === '');
          if (!wrap && (isFree || cell.value.length > LONGEST)) return [];
          const words = wrap ? cell.value.split(/\s+/) : [cell.value];
          return words
            .filter((word) => textWidth(word, (size * 96) / 72, bold) > width * 7)
            .map((word) => `${sheet.name}!${cellName(row, column)}: "${word}"`);
        }),
      ),
    );
    expect(cut).toEqual([]);
  });
});
