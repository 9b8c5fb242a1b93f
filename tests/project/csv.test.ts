/** What parts the fields of a text, and texts that are written and read here. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCells, csvRecords, csvText, ownRecords } from '../../src/project';

describe('the fields of a text', () => {
  it.each([
    ['commas', 'Part,Weight\nRib,0.5\n', ','],
    ['semicolons, with decimal commas in every row', 'Rippe 1,5;2,25\nRippe 2,5;3,75\n', ';'],
    ['tabs, with decimal commas in every row', 'Rippe 1,5\t2,25\nRippe 2,5\t3,75\n', '\t'],
    ['bars', 'Part|Weight\nRib, left|0.5\n', '|'],
    ['commas, with a bar in a text', 'Part,Weight\nRib|left,0.5\n', ','],
  ])('are parted by %s', (_name, text, delimiter) => {
    expect(csvRecords(text).delimiter).toBe(delimiter);
  });

  it('are the cells of a list, their decimal commas left for its reader', () => {
    expect(csvCells('Rippe;1,5;2,25\nHolm;2,5;3,75\n')).toEqual([
      ['Rippe', '1,5', '2,25'],
      ['Holm', '2,5', '3,75'],
    ]);
  });
});

it('what is written here is read here as it was, whatever stands in its fields', () => {
  const field = fc.string({ unit: fc.constantFrom(...'a;,\t|"\n\r= 1') });
  fc.assert(
    fc.property(
      fc.array(fc.array(field, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 6 }),
      (records) => {
        expect(ownRecords(csvText(records)).slice(0, records.length)).toEqual(records);
      },
    ),
  );
});
