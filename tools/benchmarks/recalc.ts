/** `tarebook recalc` of a long parts list against LibreOffice on the same list in plain formulas: whole processes. */
import { soffice } from '../../tests/helpers/programs';
import { formulaCount } from './big-list';
import { bestOf, type Measure, type Part } from './measure';
import type { Run } from './process';
import { Workbooks } from './workbooks';

const SIZES = [20_000, 100_000];
const FORMS = [
  { form: 'columns', words: 'one formula a column' },
  { form: 'cells', words: 'one formula a cell' },
] as const;
const LIBRE_OFFICE = 'LibreOffice';

export const recalc: Part = async ({ runs, say }) => {
  const office = soffice();
  const books = new Workbooks();
  const best = (run: () => Promise<Run>): Promise<Run> => bestOf(runs, run, ({ seconds }) => seconds);
  try {
    const measures: Measure[] = [];
    for (const rows of SIZES) {
      say(
        `${rows.toLocaleString('en-US')} rows, ${formulaCount(rows, 'cells').toLocaleString('en-US')} formulas one a cell`,
      );
      const theirs = office === undefined ? undefined : await best(() => books.libreOffice(office, rows));
      for (const { form, words } of FORMS) {
        const ours = await best(() => books.ours(rows, form));
        if (theirs) sameTotals(books, rows, form);
        const name = `${rows.toLocaleString('en-US')} rows, ${words}`;
        measures.push({
          part: 'recalc',
          name,
          value: ours.seconds,
          unit: 's',
          ...(theirs ? { against: { name: LIBRE_OFFICE, value: theirs.seconds } } : {}),
          // The one-cell form is to be as near as it can; only the column form has a bar.
          ...(theirs && form === 'columns' ? { bar: { most: 1, of: 'ratio' } } : {}),
        });
        if (ours.processor === undefined) continue;
        measures.push({
          part: 'recalc',
          name: `${name}: processor time`,
          value: ours.processor,
          unit: 's',
          ...(theirs?.processor === undefined ? {} : { against: { name: LIBRE_OFFICE, value: theirs.processor } }),
        });
      }
    }
    return measures;
  } finally {
    books.remove();
  }
};

function sameTotals(books: Workbooks, rows: number, form: string): void {
  const [ours, theirs] = [books.totals('ours', rows), books.totals('theirs', rows)];
  ours.forEach((value, index) => {
    if (!(Math.abs(value - theirs[index]!) <= 1e-9 * Math.abs(value)))
      throw new Error(`${rows} rows (${form}): totals differ, ${ours.join(', ')} and LibreOffice ${theirs.join(', ')}`);
  });
}
