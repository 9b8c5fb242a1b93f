/** What if: other material or thickness for some parts, before and after side by side, then applied or let go. */
import { Button, Checkbox, Field, Input, mergeClasses } from '@fluentui/react-components';
import { useId, useMemo, useRef } from 'react';
import { MATERIALS } from '../../../../core/material';
import type { WeightsModel } from '../../../../project';
import { t } from '../../../locale';
import { gauge } from '../weight-figures';
import type { WeightsState } from '../weights-state';
import { useWeightsStyles } from '../styles';
import type { WeightsStore } from '../weights-store';
import { OutcomeTables } from './outcome-tables';
import { PickParts } from './pick-parts';
import { readWish, thicknessUnit } from './wish';

export function WhatIfPanel({
  store,
  state,
  model,
}: {
  readonly store: WeightsStore;
  readonly state: WeightsState;
  readonly model: WeightsModel;
}) {
  const styles = useWeightsStyles();
  const materials = useId();
  const first = useRef<HTMLButtonElement>(null);
  const { draft, outcome, sources, currency } = state;
  const unit = thicknessUnit(model);
  const typed = useMemo(() => readWish(draft, unit), [draft, unit]);
  const parts = useMemo(() => {
    const on = new Set(draft.rows.filter((one) => one.on).map(({ row }) => row));
    return model.parts.rows.filter(({ row }) => on.has(row));
  }, [model, draft.rows]);
  // The outcome of what was typed before stays until the one of what is typed now is there.
  const isDue = typed.wish !== undefined && state.tried !== draft;
  const changes = outcome?.changes.count ?? 0;
  const leave = (): void => void requestAnimationFrame(() => first.current?.focus());
  const now = (values: readonly (string | number | undefined)[]): string => {
    const all = [...new Set(values.filter((value) => value !== undefined && value !== ''))];
    return all.length === 0
      ? ''
      : t('now {values}', { values: `${all.slice(0, 3).join(', ')}${all.length > 3 ? ' …' : ''}` });
  };
  return (
    <>
      <h2 className={styles.heading}>{t('What if parts used another gauge or alloy?')}</h2>
      <PickParts store={store} model={model} draft={draft} first={first} />
      {draft.rows.length > 0 && (
        <>
          <div className={styles.fields}>
            <Field
              label={t('Thickness ({unit})', { unit: unit.sign })}
              size="small"
              hint={now(parts.map(({ thickness }) => thickness && gauge(thickness, unit)))}
              {...(typed.thicknessProblem ? { validationMessage: typed.thicknessProblem } : {})}
            >
              <Input
                size="small"
                className={styles.control}
                inputMode="decimal"
                value={draft.thickness}
                onChange={(_event, { value }) => store.change({ thickness: value })}
              />
            </Field>
            <Field
              label={t('Material')}
              size="small"
              hint={now(parts.map(({ material }) => material))}
              {...(typed.materialProblem ? { validationMessage: typed.materialProblem } : {})}
            >
              <Input
                size="small"
                className={styles.control}
                list={materials}
                value={draft.material}
                onChange={(_event, { value }) => store.change({ material: value })}
              />
            </Field>
            <datalist id={materials}>
              {MATERIALS.map(({ designation }) => (
                <option key={designation} value={designation} />
              ))}
            </datalist>
          </div>
          {sources.length > 0 && (
            <Checkbox
              checked={draft.atSource}
              label={{
                className: styles.check,
                children: t(
                  'Change {cells}. It sets these rows, and everything else that uses it. Without this, the value replaces their formulas.',
                  { cells: sources.join(', ') },
                ),
              }}
              onChange={(_event, { checked }) => store.change({ atSource: checked === true })}
            />
          )}
          {parts.some(({ weighed }) => weighed !== undefined) && (
            <Checkbox
              checked={draft.keepWeighed}
              label={{
                className: styles.check,
                children: t('Keep the weighed values, though they were weighed on the parts as they are now'),
              }}
              onChange={(_event, { checked }) => store.change({ keepWeighed: checked === true })}
            />
          )}
          <p className={mergeClasses(styles.quiet, styles.oneLine)} role="status">
            {state.copying ? t('Copying the workbook for the trial…') : isDue && state.trial && t('Working it out…')}
          </p>
          {outcome && (
            <div aria-busy={isDue}>
              <OutcomeTables outcome={outcome} currency={currency} />
            </div>
          )}
          <div className={styles.line}>
            <Button
              appearance="primary"
              size="small"
              disabled={!typed.wish || isDue || changes === 0}
              onClick={() => void store.apply().then((done) => done && leave())}
            >
              {changes > 0
                ? t('Apply ({count, plural, one {# cell} other {# cells}})', { count: changes })
                : t('Apply')}
            </Button>
            <Button
              size="small"
              onClick={() => {
                store.cancel();
                leave();
              }}
            >
              {t('Cancel')}
            </Button>
          </div>
          <p className={styles.quiet}>
            {t(
              'Tried in a copy, with the sheet’s own formulas; the workbook stays as it is until you apply. Another gauge or alloy changes the structure: the designer’s drawings decide whether it is allowed.',
            )}
          </p>
        </>
      )}
      {draft.rows.length === 0 && (
        <p className={styles.quiet}>
          {t(
            'Pick parts, type another thickness or material, and see weight, arm, moment, cost and margin before and after. Nothing is written until you apply it.',
          )}
        </p>
      )}
    </>
  );
}
