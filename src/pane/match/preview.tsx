/** The first rows of a matched list as they are read, what all of them weigh, and what is left out. */
import { unitIn } from '../../core/quantity';
import { numberIn, type MatchedList } from '../../project';
import { textIn } from '../../sheet';
import { t } from '../locale';
import { sayIn } from '../shared/quantities';
import { ScrollTable, TableHead } from '../shared/scroll-table';
import { useStyles } from './styles';

/** How many rows are shown, enough to see whether columns are matched rightly. */
const SHOWN = 5;

export function Preview({ list: { rows, system, problems } }: { readonly list: MatchedList }) {
  const styles = useStyles();
  const units = system === 'both' ? 'in-lb' : system;
  const say = sayIn(units);
  const total = rows.reduce((sum, { cells }) => sum + (numberIn(cells.weight) ?? 0), 0);
  const unit = (dimension: 'weight' | 'length'): string => unitIn(dimension, units).sign;
  const number = (value: number | undefined, dimension: 'weight' | 'length', places: number): string =>
    value === undefined ? '' : say.bare(value, dimension, places);
  return (
    <>
      <p className={styles.text}>
        {t('{count, plural, one {# part} other {# parts}}, together {weight} {unit}.', {
          count: rows.length,
          weight: number(total, 'weight', 2),
          unit: unit('weight'),
        })}
      </p>
      <ScrollTable className={styles.preview}>
        <caption className={styles.caption}>{t('The first rows, as they are read')}</caption>
        <TableHead
          heads={[
            t('Part'),
            t('Component'),
            t('Pieces'),
            t('All pieces, {unit}', { unit: unit('weight') }),
            t('Arm, {unit}', { unit: unit('length') }),
          ]}
        />
        <tbody>
          {rows.slice(0, SHOWN).map(({ row, cells }) => (
            <tr key={row}>
              <th scope="row">{textIn(cells.part)}</th>
              <td>{textIn(cells.component)}</td>
              <td>{textIn(cells.quantity ?? 1)}</td>
              <td>{number(numberIn(cells.weight), 'weight', 3)}</td>
              <td>{number(numberIn(cells.arm), 'length', 2)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {problems.length > 0 && (
        <details>
          <summary>{t('{count, plural, one {# row} other {# rows}} left out', { count: problems.length })}</summary>
          <ul>
            {problems.map(({ cell, message }) => (
              <li key={cell}>
                {cell} <span lang="en">{message}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
