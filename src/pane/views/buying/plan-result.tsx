/**
 * A cutting plan to scale, pattern by pattern, with its cuts in the order in which they are made; and after it has been
 * cut, its leftovers put on the sheet Stock.
 */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useEffect, useRef, useState } from 'react';
import type { Quantities } from '../../../core/quantity';
import { cutList, type CuttingPlan, type CutStep, type StockUse } from '../../../core/stock';
import { t } from '../../locale';
import { onEscape, useFocus } from '../../shared/element';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import type { BuyingStore } from './buying-store';
import {
  lengthWords,
  sizeText,
  countsText,
  patternDrawing,
  planCostText,
  printPlan,
  sizeWords,
  statusWords,
  stepWords,
  type CostTerms,
} from './buying-words';
import type { CuttingGroup } from './cutting-needs';
import { shelfCounts, spent, type MadePlan, type Standing } from './made-plans';
import type { PlanStore } from './plan-store';
import { useStyles } from './styles';

export function PlanResult({
  store,
  buying,
  plan,
  made,
  group,
  standing,
  terms,
}: {
  readonly store: PlanStore;
  readonly buying: BuyingStore;
  readonly plan: CuttingPlan;
  readonly made: MadePlan | undefined;
  readonly group: CuttingGroup;
  /** Whether the plan still fits the sheets; shown above the plan. */
  readonly standing: Standing;
  readonly terms: CostTerms;
}) {
  const styles = useStyles();
  const { say } = terms;
  const steps = cutList(plan);
  return (
    <>
      {standing === 'stale' && (
        <p className={styles.caution}>{t('The sheets have changed since this plan was made.')}</p>
      )}
      {standing === 'cut' && <ShelfDone />}
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
      {made && standing === 'fresh' && plan.missing.length === 0 && (
        <ShelfOffer key={group.name} store={buying} plans={store} made={made} group={group} />
      )}
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

/** Asks once whether the plan has been cut, and then changes the sheet Stock. */
function ShelfOffer({
  store,
  plans,
  made,
  group,
}: {
  readonly store: BuyingStore;
  readonly plans: PlanStore;
  readonly made: MadePlan;
  readonly group: CuttingGroup;
}) {
  const styles = useStyles();
  const [asking, setAsking] = useState(false);
  const no = useFocus<HTMLButtonElement>(asking);
  const offer = useRef<HTMLButtonElement>(null);
  const counts = shelfCounts(made);
  if (counts.put + counts.taken === 0) return null;
  const letGo = (): void => {
    setAsking(false);
    // The button is back only after the question is gone.
    setTimeout(() => offer.current?.focus());
  };
  if (!asking) {
    return (
      <div className={styles.buttons}>
        <Button ref={offer} size="small" onClick={() => setAsking(true)}>
          {t('Put the leftovers on the shelf')}
        </Button>
      </div>
    );
  }
  return (
    <div
      className={styles.caution}
      role="group"
      aria-label={t('Put the leftovers on the shelf')}
      onKeyDown={onEscape(letGo)}
    >
      <p className={styles.text}>
        {t(
          'Has this plan been cut? Then {put, plural, =0 {no leftover is} one {its # leftover is} other {its # leftovers are}} written to the sheet Stock and {taken, plural, =0 {nothing is} one {the # piece that it uses is} other {the # pieces that it uses are}} taken off it. Undo takes it all back.',
          counts,
        )}
      </p>
      {spent(made).some(({ piece }) => piece.takesOff) && (
        <p className={styles.text}>
          {t(
            'A piece that is cut no longer shortens the shopping list. Enter it on the sheet Purchases, paid 0, or the list asks for it again.',
          )}
        </p>
      )}
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          onClick={() => void store.shelve(made, group, () => plans.markCut(group.name))}
        >
          {t('It is cut: change the sheet Stock')}
        </Button>
        <Button ref={no} size="small" onClick={letGo}>
          {t('Not yet')}
        </Button>
      </div>
    </div>
  );
}

/** In the offer's place once it was taken; the focus goes here, where it was. */
function ShelfDone() {
  const styles = useStyles();
  const text = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (document.activeElement === document.body || document.activeElement === null) text.current?.focus();
  }, []);
  return (
    <p ref={text} tabIndex={-1} className={styles.caution}>
      {t('This plan has been cut: its leftovers are on the sheet Stock. Plan again for what is cut from here on.')}
    </p>
  );
}
