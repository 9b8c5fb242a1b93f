/** The first rows of a matched list as they are read, what all of them weigh, and what is left out. */
import { unitIn } from '../../core/quantity';
import { numberIn, weightBySize, type MatchedList } from '../../project';
import { isBlank, textIn } from '../../sheet';
import { t } from '../locale';
import { sayIn } from '../shared/quantities';
import { ScrollTable, TableHead } from '../shared/scroll-table';
import { useStyles } from './styles';

/** How many rows are shown, enough to see whether columns are matched rightly. */
const SHOWN = 5;

/** Said wherever such weights are summed: an estimate that is too high, if anything. */
export const bySizeText = (count: number): string =>
  t(
    '{count, plural, one {The weight of # part is} other {The weights of # parts are}} reckoned from material and size; holes and trimmings are not taken off.',
    { count },
  );

export function Preview({ list: { rows, system, problems } }: { readonly list: MatchedList }) {
  const styles = useStyles();
  const units = system === 'both' ? 'in-lb' : system;
  const say = sayIn(units);
  const weights = rows.map(({ cells }) => {
    const quantity = numberIn(cells.quantity) ?? 1;
    return numberIn(cells.weight) ?? weightBySize(cells, quantity, system);
  });
  const total = weights.reduce<number>((sum, weight) => sum + (weight ?? 0), 0);
  const bySize = rows.filter(({ cells }, index) => isBlank(cells.weight) && weights[index] !== undefined).length;
  const lacking = weights.filter((weight) => weight === undefined).length;
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
      {bySize > 0 && <p className={styles.text}>{bySizeText(bySize)}</p>}
      {lacking > 0 && (
        <p className={styles.text}>
          {t(
            '{count, plural, one {# part has no weight and is} other {# parts have no weight and are}} left out of it.',
            {
              count: lacking,
            },
          )}
        </p>
      )}
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
          {rows.slice(0, SHOWN).map(({ row, cells }, index) => (
            <tr key={row}>
              <th scope="row">{textIn(cells.part)}</th>
              <td>{textIn(cells.component)}</td>
              <td>{textIn(cells.quantity ?? 1)}</td>
              <td>{number(weights[index], 'weight', 3)}</td>
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
