/** A cutting plan to scale, pattern by pattern, with its cuts in the order in which they are made. */
import { Button, mergeClasses } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import type { Quantities } from '../../../core/quantity';
import { cutList, type CuttingPlan, type CutStep, type StockUse } from '../../../core/stock';
import { t } from '../../locale';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import {
  patternDrawing,
  planCostText,
  countsText,
  sizeWords,
  statusWords,
  stepWords,
  type CostTerms,
} from './plan-words';
import type { PlanStore } from './plan-store';
import { printPlan } from './print-plan';
import { useStyles } from './styles';
import { lengthWords, sizeText } from './buying-words';

interface Props {
  readonly store: PlanStore;
  readonly plan: CuttingPlan;
  readonly terms: CostTerms;
  /** Whether the plan still fits the sheets; shown above the plan. */
  readonly standing: ReactNode;
  readonly offer: ReactNode;
}

export function PlanResult({ store, plan, terms, standing, offer }: Props) {
  const styles = useStyles();
  const { say } = terms;
  const steps = cutList(plan);
  return (
    <>
      {standing}
      <p className={styles.text}>{statusWords(plan, terms)}</p>
      {plan.missing.length > 0 && (
        <p className={mergeClasses(styles.text, styles.wrong)}>
          {t('No stock left for {parts}.', { parts: countsText(plan.missing) })}
        </p>
      )}
      <ul className={styles.list}>
        {plan.stockUsed.map((used) => (
          <li key={`${used.name}${used.length}${used.width}`}>{usedWords(used, terms)}</li>
        ))}
        {plan.fromScrap.length > 0 && <li>{t('From scrap: {parts}', { parts: countsText(plan.fromScrap) })}</li>}
      </ul>
      <div className={styles.buttons}>
        <Button
          size="small"
          onClick={() => (store.pane.handOver ? store.save('csv') : printPlan(plan, store.state.planned, say.system))}
        >
          {t('Print')}
        </Button>
        <Button size="small" onClick={() => store.save('dxf')}>
          {t('Save as DXF')}
        </Button>
        <Button size="small" onClick={() => store.save('csv')}>
          {t('Save as CSV')}
        </Button>
      </div>
      <p className={styles.quiet}>
        {t('DXF and CSV are in inches, whatever units the workbook is in; the printed plan is in the workbook’s.')}
      </p>
      {offer}
      {plan.patterns.map((pattern, index) => (
        <div key={index}>
          <h3 className={styles.subheading}>
            {t('{number, number}. {times, number} × {stock}', {
              number: index + 1,
              times: pattern.times,
              stock: pattern.stock,
            })}
          </h3>
          {/* Made here, every text in it escaped. */}
          <div
            className={styles.drawing}
            dangerouslySetInnerHTML={{ __html: patternDrawing(pattern, `plan-${index}`, say) }}
          />
          <Cuts steps={steps.filter((step) => step.pattern === index + 1)} number={index + 1} say={say} />
        </div>
      ))}
    </>
  );
}

function usedWords({ name, length, width, used, cost, offcut }: StockUse, terms: CostTerms): string {
  const values = { used, name, size: sizeText(length, width, terms.say) };
  return offcut
    ? t('{used, number} × {name}, {size}: leftover, no cost', values)
    : t('{used, number} × {name}, {size}: {cost}', { ...values, cost: planCostText(cost, terms) });
}

function Cuts({
  steps,
  number,
  say,
}: {
  readonly steps: readonly CutStep[];
  readonly number: number;
  readonly say: Quantities;
}) {
  const styles = useStyles();
  const unit = say.sign('length');
  return (
    <details>
      <summary>{t('Cuts of pattern {number, number}, in order', { number })}</summary>
      <ScrollTable className={styles.table}>
        <TableHead
          heads={[t('Cut'), { number: t('Size ({unit})', { unit }) }, { number: t('At ({unit})', { unit }) }]}
        />
        <tbody>
          {steps.map((step, index) => (
            <tr key={index}>
              <td>{stepWords(step)}</td>
              <td data-number="">{sizeWords(step, say)}</td>
              <td data-number="">{lengthWords(step.at, say)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </details>
  );
}
