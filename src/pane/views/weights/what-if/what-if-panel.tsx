/** What if: other material or thickness for some parts, before and after side by side, then applied or let go. */
import { Button, Checkbox, Field, Input, mergeClasses, Select } from '@fluentui/react-components';
import { memo, useId, useMemo, useRef, useState, type ReactNode, type RefObject } from 'react';
import { MATERIALS } from '../../../../core/material';
import type { PartRow, WeightsModel } from '../../../../project';
import { t } from '../../../locale';
import { DataTable, type DataGroup, type DataRow } from '../data-table';
import { useWeightsStyles } from '../styles';
import { figures, gauge, money, signed, type Write } from '../weight-figures';
import type { PanelProps, WeightsStore } from '../weights-store';
import type { BeforeAfter, Sum } from './trial';
import type { ComponentFigures, ShownOutcome } from './trial-answers';
import { readWish, thicknessUnit, type SwapDraft } from './wish';

export function WhatIfPanel({ store, state, model }: PanelProps) {
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
                onChange={(_event, { value }) => void store.change({ thickness: value })}
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
                onChange={(_event, { value }) => void store.change({ material: value })}
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
              onChange={(_event, { checked }) => void store.change({ atSource: checked === true })}
            />
          )}
          {parts.some(({ weighed }) => weighed !== undefined) && (
            <Checkbox
              checked={draft.keepWeighed}
              label={{
                className: styles.check,
                children: t('Keep the weighed values, though they were weighed on the parts as they are now'),
              }}
              onChange={(_event, { checked }) => void store.change({ keepWeighed: checked === true })}
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

/** Which parts are to be swapped: the rows selected in the sheet, or a component's, or those of one gauge. */
function PickParts({
  store,
  model,
  draft,
  first,
}: {
  readonly store: WeightsStore;
  readonly model: WeightsModel;
  readonly draft: SwapDraft;
  readonly first: RefObject<HTMLButtonElement | null>;
}) {
  const styles = useWeightsStyles();
  const say = figures(model.units).quantities;
  const goods = ({ material, thickness }: PartRow): string =>
    [material, thickness === undefined ? '' : gauge(thickness, model.parts.form.units.thickness)]
      .filter(Boolean)
      .join(' ');
  const parts = new Map(model.parts.rows.map((part) => [part.row, part]));
  const candidates = draft.rows.flatMap((one) => {
    const part = parts.get(one.row);
    return part ? [{ ...one, part }] : [];
  });
  const kinds = [...new Set(candidates.map(({ part }) => goods(part)))].filter(Boolean).sort();
  const on = candidates.filter((one) => one.on);
  const chosen =
    kinds.find((kind) => on.length > 0 && candidates.every((one) => one.on === (goods(one.part) === kind))) ?? '';
  const choose = (which: (part: PartRow) => boolean): void =>
    store.choose(candidates.filter(({ part }) => which(part)).map(({ row }) => row));
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>{t('Which parts')}</legend>
      <div className={styles.line}>
        <Button ref={first} size="small" onClick={() => void store.pickSelected(model)}>
          {t('Rows selected in the sheet')}
        </Button>
        <Select
          size="small"
          className={styles.choose}
          aria-label={t('All of a component')}
          value=""
          onChange={(_event, { value }) =>
            void store.pick(model.components.find(({ name }) => name === value)?.rows ?? [])
          }
        >
          <option value="">{t('or all of …')}</option>
          {model.components.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </Select>
      </div>
      {candidates.length > 0 && (
        <>
          {kinds.length > 1 && (
            <div className={styles.line}>
              <Select
                size="small"
                className={styles.choose}
                aria-label={t('Those of')}
                value={chosen}
                onChange={(_event, { value }) => choose((part) => value === '' || goods(part) === value)}
              >
                <option value="">{t('of every gauge')}</option>
                {kinds.map((kind) => (
                  <option key={kind} value={kind}>
                    {t('only those of {kind}', { kind })}
                  </option>
                ))}
              </Select>
            </div>
          )}
          <div className={styles.checks} role="group" aria-label={t('Parts')}>
            <LongList items={candidates} step={40}>
              {(shown) =>
                shown.map(({ row, on: checked, part }) => (
                  <PartCheck
                    key={row}
                    store={store}
                    row={row}
                    checked={checked}
                    label={`${part.part}: ${[goods(part), part.weight === undefined ? '' : say.say(part.weight, 'weight', 3), part.weighed === undefined ? '' : t('weighed')].filter(Boolean).join(', ')}`}
                  />
                ))
              }
            </LongList>
          </div>
        </>
      )}
    </fieldset>
  );
}

/** Drawn again only where it changes, not with every key in the fields below. */
const PartCheck = memo(function PartCheck({
  store,
  row,
  checked,
  label,
}: {
  readonly store: WeightsStore;
  readonly row: number;
  readonly checked: boolean;
  readonly label: string;
}) {
  const styles = useWeightsStyles();
  return (
    <div>
      <Checkbox
        checked={checked}
        label={{ className: styles.check, children: label }}
        onChange={(_event, data) => store.swapRow(row, data.checked === true)}
      />
    </div>
  );
});

const line = (key: string, before: number | undefined, after: number | undefined, write: Write): DataRow => ({
  key,
  head: key,
  cells: [
    write(before),
    write(after),
    before === undefined || after === undefined ? '' : signed(after - before, write),
  ],
});

/** A trial's outcome: before and after, what follows along, and every cell that would be written. */
function OutcomeTables({ outcome, currency }: { readonly outcome: ShownOutcome; readonly currency: string }) {
  const styles = useWeightsStyles();
  const { picked, components, total, notes, changes, hasCost } = outcome;
  const { weight, arm, moment, weightLike, unit } = figures(outcome.units);
  const cost = currency ? t('Cost, {currency}', { currency }) : t('Cost');
  const labels = {
    weight: t('Weight, {unit}', { unit: unit('weight') }),
    arm: t('Arm, {unit}', { unit: unit('length') }),
    moment: t('Moment, {unit}', { unit: unit('moment') }),
    margin: t('Margin, {unit}', { unit: unit('weight') }),
    forecast: t('Forecast, {unit}', { unit: unit('weight') }),
  };
  const sums = ({ before, after }: BeforeAfter<Sum>): DataRow[] => [
    line(labels.weight, before.weight, after.weight, weightLike([before.weight, after.weight])),
    line(labels.arm, before.arm, after.arm, arm),
    line(labels.moment, before.moment, after.moment, moment),
    ...(hasCost ? [line(cost, before.cost, after.cost, money)] : []),
  ];
  const against = ({ before, after }: BeforeAfter<Omit<ComponentFigures, 'weight'>>): DataRow[] => [
    line(labels.forecast, before.forecast, after.forecast, weight),
    ...(before.margin === undefined && after.margin === undefined
      ? []
      : [line(labels.margin, before.margin, after.margin, weight)]),
  ];
  const groups: DataGroup[] = [
    { key: 'picked', head: t('The parts picked'), rows: sums(picked) },
    ...components.map(({ name, ...both }) => ({
      key: `component ${name}`,
      head: name,
      rows: [line(labels.weight, both.before.weight, both.after.weight, weight), ...against(both)],
    })),
    { key: 'total', head: t('Everything'), rows: [...sums(total), ...against(total)] },
  ];
  return (
    <>
      <DataTable
        caption={t('Before and after')}
        columns={[t('Figure'), t('Before'), t('After'), t('Change')]}
        groups={groups}
      />
      {notes.count > 0 && (
        <section className={styles.section}>
          <h3 className={styles.legend}>{t('To know')}</h3>
          <LongList items={notes.first} count={notes.count}>
            {(shown) => (
              <ul className={styles.list}>
                {shown.map((note) => (
                  <li key={note}>{note}</li>
                ))}
              </ul>
            )}
          </LongList>
        </section>
      )}
      <section className={styles.section}>
        <h3 className={styles.legend}>{t('Cells that Apply writes')}</h3>
        {changes.count === 0 ? (
          <p className={styles.text}>{t('None: nothing would change.')}</p>
        ) : (
          <LongList items={changes.first} count={changes.count}>
            {(shown) => (
              <ul className={styles.list}>
                {shown.map(({ cell, from, to, why }) => (
                  <li key={cell}>
                    {cell}: {from} → {to} ({why})
                  </li>
                ))}
              </ul>
            )}
          </LongList>
        )}
      </section>
    </>
  );
}

/** The first lines of a long list, and a button for more of them: thousands at once would hold the page still. */
function LongList<T>({
  items,
  count = items.length,
  step = 100,
  children,
}: {
  readonly items: readonly T[];
  /** Of all, where `items` are the first of more. */
  readonly count?: number;
  /** How many are shown first, and more at each press. */
  readonly step?: number;
  readonly children: (shown: readonly T[]) => ReactNode;
}) {
  const [length, setLength] = useState(step);
  const list = useRef<HTMLDivElement>(null);
  const more = Math.min(step, items.length - length);
  const left = count - Math.min(length, items.length);
  return (
    <div ref={list} tabIndex={-1} style={{ outline: 'none' }}>
      {children(items.slice(0, length))}
      {more > 0 ? (
        <Button
          size="small"
          onClick={() => {
            setLength(length + step);
            // The button goes with the last lines: the keyboard stays at the list.
            if (length + step >= items.length) list.current?.focus();
          }}
        >
          {t('Show {more, number} of {left, number} more', { more, left })}
        </Button>
      ) : (
        left > 0 && t('and {left, number} more', { left })
      )}
    </div>
  );
}
