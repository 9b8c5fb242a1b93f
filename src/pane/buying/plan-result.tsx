/** A cutting plan to scale, pattern by pattern, with its cuts in the order in which they are made. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { cutList, lengthText, patternSvg, type CuttingPlan, type CutStep } from '../../core/stock';
import { printPlan } from './print-plan';
import type { PlanStore } from './plan-store';
import { costText, sizeWords, statusWords, stepWords } from './plan-words';
import { useStyles } from './styles';

interface Props {
  readonly store: PlanStore;
  readonly plan: CuttingPlan;
  readonly priced: boolean;
  readonly currency: string;
  readonly stale: boolean;
}

export function PlanResult({ store, plan, priced, currency, stale }: Props) {
  const styles = useStyles();
  const steps = cutList(plan);
  const counts = (list: readonly { readonly part: string; readonly quantity: number }[]): string => list.map(({ part, quantity }) => `${quantity} × ${part}`).join(', ');
  return (
    <>
      {stale && <p className={styles.caution}>The sheets have changed since this plan was made.</p>}
      <p className={styles.text}>{statusWords(plan, priced, currency)}</p>
      {plan.missing.length > 0 && <p className={mergeClasses(styles.text, styles.wrong)}>No stock left for {counts(plan.missing)}.</p>}
      <ul className={styles.list}>
        {plan.stockUsed.map(({ name, length, width, used, cost, offcut }) => (
          <li key={`${name}${length}${width}`}>
            {used} × {name}, {lengthText(length)}
            {width !== undefined && ` × ${lengthText(width)}`} in: {offcut ? 'leftover, no cost' : costText(cost, priced, plan.kind, currency)}
          </li>
        ))}
        {plan.fromScrap.length > 0 && <li>From scrap: {counts(plan.fromScrap)}</li>}
      </ul>
      <div className={styles.buttons}>
        <Button size="small" onClick={() => printPlan(plan, store.state.planned)}>
          Print
        </Button>
        <Button size="small" onClick={() => store.save('dxf')}>
          Save as DXF
        </Button>
        <Button size="small" onClick={() => store.save('csv')}>
          Save as CSV
        </Button>
      </div>
      {plan.patterns.map((pattern, index) => (
        <div key={index}>
          <h3 className={styles.subheading}>
            {index + 1}. {pattern.times} × {pattern.stock}
          </h3>
          {/* Made here, every text in it escaped. */}
          <div className={styles.drawing} dangerouslySetInnerHTML={{ __html: patternSvg(pattern, { id: `plan-${index}` }) }} />
          <Cuts steps={steps.filter((step) => step.pattern === index + 1)} number={index + 1} />
        </div>
      ))}
    </>
  );
}

function Cuts({ steps, number }: { readonly steps: readonly CutStep[]; readonly number: number }) {
  const styles = useStyles();
  return (
    <details>
      <summary>Cuts of pattern {number}, in order</summary>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Cut</th>
            <th scope="col" data-number="">
              Size (in)
            </th>
            <th scope="col" data-number="">
              At (in)
            </th>
          </tr>
        </thead>
        <tbody>
          {steps.map((step, index) => (
            <tr key={index}>
              <td>{stepWords(step)}</td>
              <td data-number="">{sizeWords(step)}</td>
              <td data-number="">{lengthText(step.at)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
