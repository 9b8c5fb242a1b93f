/** The most memory that recalculating 100,000 rows takes, beside LibreOffice's. */
import { soffice } from '../../tests/helpers/programs';
import type { Measure, Part } from './measure';
import { Workbooks } from './workbooks';

const ROWS = 100_000;
const MOST_MB = 1024;

export const memory: Part = async ({ say }) => {
  const books = new Workbooks();
  try {
    const measures: Measure[] = [];
    for (const [form, words] of [
      ['columns', 'one formula a column'],
      ['cells', 'one formula a cell'],
    ] as const) {
      const used = (await books.ours(ROWS, form)).memory;
      if (used === undefined) {
        say('left out: GNU time, which measures it, is not here');
        return [];
      }
      measures.push({
        part: 'memory',
        name: `recalc, ${words}`,
        value: used,
        unit: 'MB',
        bar: { most: MOST_MB, of: 'value' },
      });
    }
    const office = soffice();
    const theirs = office === undefined ? undefined : (await books.libreOffice(office, ROWS)).memory;
    if (theirs !== undefined)
      measures.push({ part: 'memory', name: 'LibreOffice on the plain form', value: theirs, unit: 'MB' });
    return measures;
  } finally {
    books.remove();
  }
};
