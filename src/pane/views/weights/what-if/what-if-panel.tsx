/** What if: other material or thickness for some parts, before and after side by side, then applied or let go. */
import { Button, Checkbox, Field, Input } from '@fluentui/react-components';
import { useDeferredValue, useId, useMemo, useRef } from 'react';
import { MATERIALS } from '../../../../core/material';
import type { WeightsModel } from '../../../../project';
import { unitIn } from '../../../../core/quantity';
import { t } from '../../../locale';
import { gauge } from '../weight-figures';
import type { SwapDraft, WeightsState } from '../weights-state';
import { useWeightsStyles } from '../styles';
import type { WeightsStore } from '../weights-store';
import { OutcomeTables } from './outcome-tables';
import { PickParts } from './pick-parts';
import { placeName, sourceOf } from './source-cell';
import type { Trial } from './trial';
import { readWish } from './wish';

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
  const { draft, trial, currency } = state;
  // The fields answer at once; the trial follows when there is time.
  const later = useDeferredValue(draft);
  const unit = model.parts.form.units.thickness ?? unitIn('length', model.units);
  const typed = useMemo(() => readWish(draft, unit), [draft, unit]);
  const outcome = useMemo(() => {
    const { wish } = readWish(later, unit);
    return trial && wish ? trial.outcome(wish) : undefined;
  }, [trial, later, unit]);
  const on = draft.rows.filter((one) => one.on);
  const parts = model.parts.rows.filter(({ row }) => on.some((one) => one.row === row));
  const sources = trial ? sourcesOf(trial, model, draft) : [];
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
          {!trial && <p className={styles.quiet}>{t('Copying the workbook for the trial…')}</p>}
          {outcome && <OutcomeTables outcome={outcome} doubts={trial?.doubts ?? []} currency={currency} />}
          <div className={styles.line}>
            <Button
              appearance="primary"
              size="small"
              disabled={!typed.wish || !outcome || later !== draft || outcome.swap.changes.length === 0}
              onClick={() => outcome && void store.apply(outcome.swap).then((done) => done && leave())}
            >
              {outcome && outcome.swap.changes.length > 0
                ? t('Apply ({count, plural, one {# cell} other {# cells}})', { count: outcome.swap.changes.length })
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

/** Cells that the picked rows have what is typed from, by name. */
function sourcesOf(
  { planned }: Trial,
  { parts: { form } }: WeightsModel,
  { rows, thickness, material }: SwapDraft,
): string[] {
  const columns = [
    thickness.trim() === '' ? undefined : form.columns.thickness,
    material.trim() === '' ? undefined : form.columns.material,
  ];
  const places = rows
    .filter(({ on }) => on)
    .flatMap(({ row }) =>
      columns.flatMap((column) =>
        column === undefined ? [] : (sourceOf(planned, { sheet: form.sheet, row, column }) ?? []),
      ),
    );
  return [...new Set(places.map(placeName))];
}
