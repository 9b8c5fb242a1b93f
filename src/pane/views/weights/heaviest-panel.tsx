/** The heaviest parts, and what they are together. */
import { Select } from '@fluentui/react-components';
import { paretoPicture } from '../../../pictures';
import { t } from '../../locale';
import { Figure } from '../../shared/picture';
import { DataTable } from './data-table';
import { figures, percent } from './weight-figures';
import { useWeightsStyles } from './styles';
import type { PanelProps } from './weights-store';

const CHOICES = [10, 20, 40];

export function HeaviestPanel({ store, state: { partsShown: shown }, model }: PanelProps) {
  const styles = useWeightsStyles();
  const { heaviest } = model;
  const parts = heaviest.slice(0, shown);
  const { weightLike, unit, quantities } = figures(model.units);
  const weightOf = weightLike(parts.map(({ weight }) => weight));
  return (
    <Figure
      title={t('Heaviest parts')}
      draw={(options) =>
        paretoPicture(
          {
            parts: parts.map(({ row, part, component, weight, together }) => ({
              id: String(row),
              name: part,
              of: component,
              weight,
              together,
            })),
            count: heaviest.length,
            quantities,
          },
          options,
        )
      }
      onPick={(id) => void store.selectRows([Number(id)])}
      table={
        <DataTable
          caption={t('Heaviest parts')}
          columns={[t('Part'), t('Weight, {unit}', { unit: unit('weight') }), t('Of all'), t('Together')]}
          rows={parts.map(({ row, part, component, weight, percent: own, together }) => ({
            key: row,
            head: (
              <button type="button" className={styles.link} onClick={() => void store.selectRows([row])}>
                {part} ({component})
              </button>
            ),
            cells: [weightOf(weight), percent(own), percent(together)],
          }))}
        />
      }
    >
      {heaviest.length > CHOICES[0]! && (
        <div className={styles.line}>
          <Select
            size="small"
            aria-label={t('How many parts')}
            value={shown}
            onChange={(_event, { value }) => store.view({ partsShown: Number(value) })}
          >
            {CHOICES.map((count) => (
              <option key={count} value={count}>
                {t('{count} of {all, plural, one {# part} other {# parts}}', { count, all: heaviest.length })}
              </option>
            ))}
          </Select>
        </div>
      )}
    </Figure>
  );
}
