/** The cutting plan of one material: asked for, watched, ended, shown. */
import { Button, Input, ProgressBar, Select } from '@fluentui/react-components';
import { useId } from 'react';
import { useStore } from '../store';
import { unsizedArea, type CuttingGroup } from './cutting-needs';
import { PlanResult } from './plan-result';
import { LONGEST_SECONDS, type PlanStore } from './plan-store';
import { progressWords } from './plan-words';
import type { BuyingSheets } from './sheets';
import { useStyles } from './styles';
import { quantityText } from './words';

export function PlanSection({ store, sheets }: { readonly store: PlanStore; readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  return (
    <section className={styles.section} aria-labelledby="buying-plan">
      <h2 id="buying-plan" className={styles.heading}>
        Cutting plan
      </h2>
      {sheets.groups.length === 0 ? (
        <p className={styles.text}>No part has the size that it is cut from. Give the sheet Parts the columns Cut length (in) and, for sheet, Cut width (in): the rectangle of one part, its length along the grain.</p>
      ) : (
        <Planning store={store} sheets={sheets} />
      )}
    </section>
  );
}

function Planning({ store, sheets }: { readonly store: PlanStore; readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const id = useId();
  const { phase, seconds, progress, plan, wrong } = useStore(store);
  const group = store.groupOf(sheets)!;
  const running = phase === 'running' || phase === 'cancelling';
  const { kerf, turn } = sheets.cutting;
  const priced = progress !== undefined && store.priced;
  return (
    <>
      <div className={styles.fields}>
        <div className={styles.field}>
          <label htmlFor={`${id}-group`} className={styles.label}>
            Material and gauge
          </label>
          <Select id={`${id}-group`} size="small" className={styles.input} value={group.name} disabled={running} onChange={(_event, { value }) => store.choose(value)}>
            {sheets.groups.map(({ name }) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </div>
        <div className={styles.field}>
          <label htmlFor={`${id}-seconds`} className={styles.label}>
            Time limit (s)
          </label>
          <Input id={`${id}-seconds`} size="small" type="number" min={1} max={LONGEST_SECONDS} className={styles.input} value={String(seconds)} disabled={running} onChange={(_event, { value }) => Number(value) >= 1 && store.allow(Math.min(LONGEST_SECONDS, Number(value)))} />
        </div>
      </div>
      <p className={styles.quiet}>
        {countWords(group)} Kerf {kerf} in; {turn ? 'parts may be turned' : 'lengths lie along the grain'}: the sheet Buying changes that. Leftovers of the sheet Stock are spent first. The plan is for all the pieces, also those of sheets that are bought already.
      </p>
      <div className={styles.buttons}>
        {running ? (
          <Button size="small" disabledFocusable={phase === 'cancelling'} onClick={() => store.cancel()}>
            End now with the best so far
          </Button>
        ) : (
          <Button size="small" appearance="primary" onClick={() => void store.make(sheets)}>
            {plan ? 'Plan again' : 'Make the plan'}
          </Button>
        )}
      </div>
      {running && (
        <>
          <ProgressBar aria-label="Cutting plan" {...(progress ? { value: Math.min(1, progress.seconds / seconds) } : {})} />
          <p className={styles.quiet}>{progressWords(progress, priced, group.sheets ? 'sheets' : 'bars', sheets.list.currency)}</p>
        </>
      )}
      <div role="status">{phase === 'done' && <span className={styles.hidden}>The cutting plan is ready.</span>}</div>
      <div role="alert" className={styles.wrong}>
        {wrong}
      </div>
      {plan && <PlanResult store={store} plan={plan} priced={store.priced} currency={sheets.list.currency} stale={store.isStale(sheets)} />}
    </>
  );
}

function countWords(group: CuttingGroup): string {
  const pieces = group.parts.reduce((sum, { quantity }) => sum + Math.ceil(quantity), 0);
  const without = group.unsized.length;
  const area = unsizedArea(group);
  const rest = without === 0 ? '' : ` ${without} ${without === 1 ? 'row has' : 'rows have'} no cut size and ${without === 1 ? 'is' : 'are'} in no plan${area > 0 ? `, counted by area alone: ${quantityText(area, 'area')}` : ''}.`;
  return `${group.parts.length} ${group.parts.length === 1 ? 'part' : 'parts'}, ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}.${rest}`;
}
