/** Components against the design budget, and cells that could not be read as they stand. */
import { Button } from '@fluentui/react-components';
import { useId, useState } from 'react';
import { budgetPicture, type BudgetBar } from '../../../pictures';
import { restsOn, weighedBySize, type ComponentWeights, type Problem, type WeightsModel } from '../../../project';
import { parseCell, quoteSheet } from '../../../sheet';
import { t } from '../../locale';
import { bySizeText, OwnLists } from '../../match';
import { NotRecalculated } from '../../shared/cell-list';
import { Figure } from '../../shared/picture';
import { DataTable } from './data-table';
import { useWeightsStyles } from './styles';
import { figures, percent, signed } from './weight-figures';
import type { PanelProps, WeightsStore } from './weights-store';

const TOTAL_ID = 'total';

/** The budget; below it the lists that are matched, and others that may be. */
export function BudgetPanel({ store, state: { asked, resting }, model }: PanelProps) {
  const styles = useWeightsStyles();
  const { components, total } = model;
  const { weight, unit, quantities } = figures(model.units);
  const pick = (id: string): void => {
    const component = id === TOTAL_ID ? total : components[Number(id)];
    if (component) void store.selectRows(component.rows);
  };
  const budget = (
    <>
      <CellsToFix store={store} problems={[...model.problems, ...asked]} model={model} />
      <NotRecalculated store={store} marked={resting.marked} />
      {[...components, total].every(({ budget }) => budget === undefined) && (
        <section className={styles.section}>
          <p className={styles.text}>
            {t(
              'No budget yet. A sheet Budget takes a design weight for each component, under the headers Component and Budget ({unit}).',
              { unit: unit('weight') },
            )}
          </p>
          <Button size="small" appearance="primary" onClick={() => void store.addBudget(model)}>
            {t('Add a budget from today’s forecast')}
          </Button>
        </section>
      )}
      <Figure
        title={t('Against the budget')}
        draw={(options) =>
          budgetPicture(
            {
              bars: components.map((component, index) => barOf(component, String(index))),
              total: barOf(total, TOTAL_ID),
              quantities,
            },
            options,
          )
        }
        onPick={pick}
        table={
          <DataTable
            caption={t('Components against the budget, {unit}', { unit: unit('weight') })}
            columns={[
              t('Compo\u00adnent, {unit}', { unit: unit('weight') }),
              t('Now'),
              t('Fore\u00adcast'),
              t('Budget'),
              t('Margin'),
              t('Weigh\u00aded'),
            ]}
            rows={[...components, total].map((one) => ({
              key: one.name,
              head: (
                <button type="button" className={styles.link} onClick={() => void store.selectRows(one.rows)}>
                  {restsOn(one.name, total.name, resting)
                    ? t('{name} (not recalculated)', { name: one.name })
                    : one.name}
                </button>
              ),
              strong: one === total,
              cells: [
                weight(one.current),
                weight(one.forecast),
                weight(one.budget),
                signed(one.margin, weight),
                percent(one.weighedPercent),
              ],
            }))}
          />
        }
      />
      <p className={styles.quiet}>{forecastWords(model).join(' ')}</p>
    </>
  );
  if (!model.parts.form.matched) return budget;
  return (
    <OwnLists pane={store.pane}>
      {(offer) => (
        <>
          {budget}
          {offer}
        </>
      )}
    </OwnLists>
  );
}

function forecastWords({ total, parts, allowances, tolerancedPercent }: WeightsModel): string[] {
  const bySize = weighedBySize(parts);
  const list = allowances.list.map(({ status, fraction }) => `${status} ${percent(fraction * 100)}`).join(', ');
  return [
    ...(bySize > 0 ? [bySizeText(bySize)] : []),
    ...(total.weighedPercent === undefined
      ? []
      : [t('{share} of the weight has been on a scale.', { share: percent(total.weighedPercent) })]),
    t('The forecast adds to each part what its status says it may still grow: {list}.', { list }),
    allowances.own
      ? t('These are from the sheet Allowances.')
      : t('Rule-of-thumb percentages (no source). Put your own on a sheet named Allowances.'),
    ...(tolerancedPercent !== undefined && tolerancedPercent > 0
      ? [
          t(
            'The bracket at a bar’s end is the root of the sum of the squares of the parts’ tolerances, given for {share} of the weight. It is not a probability and not a guarantee.',
            { share: percent(tolerancedPercent) },
          ),
        ]
      : []),
  ];
}

const barOf = ({ name, current, forecast, budget, rootSum }: ComponentWeights, id: string): BudgetBar => ({
  id,
  name,
  current,
  forecast,
  budget,
  plusMinus: rootSum,
});

/** Cells that could not be read as they stand, each with the way to it. */
export function CellsToFix({
  store,
  problems,
  model,
}: {
  readonly store: WeightsStore;
  readonly problems: readonly Problem[];
  /** Says which rows of rivets and hardware the parts list has not got. */
  readonly model?: WeightsModel;
}) {
  const styles = useWeightsStyles();
  const id = useId();
  const [open, setOpen] = useState(false);
  if (problems.length === 0) return null;
  return (
    <section className={styles.section} aria-label={t('Cells to fix')}>
      <Button size="small" aria-expanded={open} aria-controls={open ? id : undefined} onClick={() => setOpen(!open)}>
        {t('{count, plural, one {# cell} other {# cells}} to fix', { count: problems.length })}
      </Button>
      {model && model.missing.length > 0 && (
        <Button size="small" onClick={() => void store.addMissingRows(model)}>
          {t('Add {count, plural, one {the row} other {# rows}} of rivets and hardware', {
            count: model.missing.length,
          })}
        </Button>
      )}
      {open && (
        <ul id={id} className={styles.list}>
          {problems.map(({ sheet, cell, message }) => {
            const place = parseCell(cell);
            const name = `${quoteSheet(sheet)}!${cell}`;
            return (
              <li key={`${name} ${message}`}>
                <button
                  type="button"
                  className={styles.link}
                  onClick={() =>
                    place &&
                    void store.select({ sheet, ...place, rows: 1, columns: 1 }, t('{cell} selected.', { cell: name }))
                  }
                >
                  {name}
                </button>{' '}
                <span lang="en">{message}</span>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}
