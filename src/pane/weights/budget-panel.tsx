/** Components against the design budget. */
import { Button } from '@fluentui/react-components';
import { budgetPicture, type BudgetBar } from '../../pictures';
import type { ComponentWeights, WeightsModel } from '../../workbook';
import { Figure } from '../picture';
import { DataTable } from './data-table';
import { percent, pounds, signed } from './figures';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

const TOTAL_ID = 'total';
const idOf = (index: number): string => `component ${index}`;

export function BudgetPanel({ store, model }: { readonly store: WeightsStore; readonly model: WeightsModel }) {
  const styles = useWeightsStyles();
  const { components, total, allowances, tolerancedPercent } = model;
  const hasBudget = [...components, total].some(({ budget }) => budget !== undefined);
  const bars = components.map((component, index) => barOf(component, idOf(index)));
  const pick = (id: string): void => {
    const component = id === TOTAL_ID ? total : components.find((_one, index) => idOf(index) === id);
    if (component) void store.selectRows(component.rows);
  };
  return (
    <>
      {!hasBudget && (
        <section className={styles.section}>
          <p className={styles.text}>There is no design weight to hold these against. A sheet Budget takes one for each component, under the headers Component and Budget (lb).</p>
          <Button size="small" appearance="primary" onClick={() => void store.addBudget()}>
            Add a budget from today’s forecast
          </Button>
        </section>
      )}
      <Figure
        title="Against the budget"
        draw={(options) => budgetPicture({ bars, total: barOf(total, TOTAL_ID) }, options)}
        onPick={pick}
        table={
          <DataTable
            caption="Components against the budget, lb"
            columns={['Compo\u00adnent, lb', 'Now', 'Fore\u00adcast', 'Budget', 'Margin', 'Weigh\u00aded']}
            rows={[...components, total].map((one) => ({
              key: one.name,
              head: (
                <button type="button" className={styles.link} onClick={() => void store.selectRows(one.rows)}>
                  {one.name}
                </button>
              ),
              strong: one === total,
              cells: [pounds(one.current), pounds(one.forecast), pounds(one.budget), signed(one.margin, pounds), percent(one.weighedPercent)],
            }))}
          />
        }
      />
      <p className={styles.quiet}>
        {total.weighedPercent === undefined ? '' : `${percent(total.weighedPercent)} of the weight has been on a scale. `}
        The forecast adds to each part what its status says it may still grow: {allowances.list.map(({ status, fraction }) => `${status} ${percent(fraction * 100)}`).join(', ')}.{' '}
        {allowances.own ? 'These are the sheet Allowances’ own.' : 'These are spacecraft makers’ practice, from memory, verify; a sheet Allowances of your own replaces them.'}
        {tolerancedPercent !== undefined && tolerancedPercent > 0 && ` The bracket at a bar’s end is its likely error by the parts’ tolerances, stated for ${percent(tolerancedPercent)} of the weight.`}
      </p>
    </>
  );
}

const barOf = ({ name, current, forecast, budget, likely }: ComponentWeights, id: string): BudgetBar => ({ id, name, current, forecast, budget, plusMinus: likely });
