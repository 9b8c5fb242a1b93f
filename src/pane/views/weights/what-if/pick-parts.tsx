/** Which parts are to be swapped: the rows selected in the sheet, or a component's, or those of one gauge. */
import { Button, Checkbox, Select } from '@fluentui/react-components';
import { memo, type RefObject } from 'react';
import type { PartRow, WeightsModel } from '../../../../project';
import type { Unit } from '../../../../core/quantity';
import { t } from '../../../locale';
import { LongList } from '../../../shared/long-list';
import { figures, gauge } from '../weight-figures';
import type { SwapDraft } from '../weights-state';
import { useWeightsStyles } from '../styles';
import type { WeightsStore } from '../weights-store';

export interface PickPartsProps {
  readonly store: WeightsStore;
  readonly model: WeightsModel;
  readonly draft: SwapDraft;
  readonly first: RefObject<HTMLButtonElement | null>;
}

const goodsOf = ({ material, thickness }: PartRow, unit: Unit | undefined): string =>
  [material, thickness === undefined ? '' : gauge(thickness, unit)].filter(Boolean).join(' ');

export function PickParts({ store, model, draft, first }: PickPartsProps) {
  const styles = useWeightsStyles();
  const say = figures(model.units).quantities;
  const goods = (part: PartRow): string => goodsOf(part, model.parts.form.units.thickness);
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
        <Button ref={first} size="small" onClick={() => void store.pickSelected()}>
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
