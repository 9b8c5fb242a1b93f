/** The workbook with its collections. */
import { parseRange } from '../../../../src/sheet';
import { ExcelFault, type FakeBook } from '../fake/book';
import { range, table, worksheet, type Surroundings } from './objects';
import { NOTHING, type Served } from './requests';

export function workbook(around: Surroundings): Served {
  const { book } = around;
  return {
    values: { name: () => book.name },
    parts: {
      worksheets: () => ({
        items: () => book.sheets.map((sheet) => worksheet(around, () => sheet)),
        item: (key) => {
          const byId = book.sheets.find(({ id }) => id === key);
          const sheet = byId ?? book.sheet(key);
          return worksheet(around, () => sheet);
        },
        methods: {
          getItemOrNullObject: (name: string) => {
            const found = book.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
            return found ? worksheet(around, () => found) : NOTHING;
          },
          add: (name: string) => {
            const sheet = book.addSheet(name);
            return worksheet(around, () => sheet);
          },
        },
      }),
      tables: () => ({
        items: () => book.tables.map((one) => table(around, () => one)),
        item: (key) => {
          const found = book.table(key);
          return table(around, () => found);
        },
        methods: {
          getCount: () => book.tables.length,
          getItemAt: (index: number) => {
            const found = book.tables[index];
            if (!found) throw new ExcelFault(book.noSuchTable);
            return table(around, () => found);
          },
        },
      }),
      // The number of a day tells which system the workbook counts in.
      functions: () => ({
        methods: { date: () => ({ values: { value: () => (book.dates1904 ? 1 : 1463), error: () => null } }) },
      }),
      names: () => ({
        items: () => book.names.map((item) => named(around, item)),
        item: (key) => {
          const found = book.names.find((item) => item.name.toLowerCase() === key.toLowerCase());
          if (!found) throw new ExcelFault('ItemNotFound');
          return named(around, found);
        },
      }),
    },
    methods: {
      getSelectedRange: () => {
        const { selection } = book;
        if (!selection)
          throw new ExcelFault('InvalidSelection', 'The current selection is invalid for this operation.');
        return range(around, selection);
      },
    },
  };
}

const named = (around: Surroundings, { name, refersTo }: FakeBook['names'][number]): Served => ({
  values: { name: () => name, formula: () => `=${refersTo}` },
  methods: {
    getRange: () => {
      const [sheet, address] = refersTo.split('!') as [string, string];
      return range(around, { sheet: around.book.sheet(sheet), place: parseRange(address.replaceAll('$', ''), sheet)! });
    },
  },
});
