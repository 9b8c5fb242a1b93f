/** Which parts are to be swapped: the rows selected in the sheet, or a component's, or those of one gauge. */
import { Button, Checkbox, Select } from '@fluentui/react-components';
import type { RefObject } from 'react';
import type { PartRow, WeightsModel } from '../../../workbook';
import { partPounds } from '../figures';
import type { Draft } from '../state';
import { useWeightsStyles } from '../styles';
import type { WeightsStore } from '../weights-store';
import { decimals } from './swap';

export interface PickPartsProps {
  readonly store: WeightsStore;
  readonly model: WeightsModel;
  readonly draft: Draft;
  readonly first: RefObject<HTMLButtonElement | null>;
}

export const goods = ({ material, thickness }: PartRow): string => [material, thickness === undefined ? '' : decimals(thickness)].filter(Boolean).join(' ');

export function PickParts({ store, model, draft, first }: PickPartsProps) {
  const styles = useWeightsStyles();
  const parts = new Map(model.parts.rows.map((part) => [part.row, part]));
  const candidates = draft.rows.flatMap((one) => {
    const part = parts.get(one.row);
    return part ? [{ ...one, part }] : [];
  });
  const kinds = [...new Set(candidates.map(({ part }) => goods(part)))].filter(Boolean).sort();
  const on = candidates.filter((one) => one.on);
  const chosen = kinds.find((kind) => on.length > 0 && candidates.every((one) => one.on === (goods(one.part) === kind))) ?? '';
  const choose = (which: (part: PartRow) => boolean): void => store.choose(candidates.filter(({ part }) => which(part)).map(({ row }) => row));
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>Which parts</legend>
      <div className={styles.line}>
        <Button ref={first} size="small" onClick={() => void store.pickSelected()}>
          Rows selected in the sheet
        </Button>
        <Select size="small" className={styles.choose} aria-label="All of a component" value="" onChange={(_event, { value }) => void store.pick(model.components.find(({ name }) => name === value)?.rows ?? [])}>
          <option value="">or all of …</option>
          {model.components.map(({ name }) => (
            <option key={name}>{name}</option>
          ))}
        </Select>
      </div>
      {candidates.length > 0 && (
        <>
          {kinds.length > 1 && (
            <div className={styles.line}>
              <Select size="small" className={styles.choose} aria-label="Those of" value={chosen} onChange={(_event, { value }) => choose((part) => value === '' || goods(part) === value)}>
                <option value="">of every gauge</option>
                {kinds.map((kind) => (
                  <option key={kind} value={kind}>
                    only those of {kind}
                  </option>
                ))}
              </Select>
            </div>
          )}
          <div className={styles.checks} role="group" aria-label="Parts">
            {candidates.map(({ row, on: checked, part }) => (
              <div key={row}>
                <Checkbox
                  checked={checked}
                  label={{ className: styles.check, children: `${part.part}: ${[goods(part), part.weight === undefined ? '' : `${partPounds(part.weight)} lb`, part.weighed === undefined ? '' : 'weighed'].filter(Boolean).join(', ')}` }}
                  onChange={(_event, data) => store.choose(on.map((one) => one.row).filter((other) => other !== row).concat(data.checked === true ? [row] : []))}
                />
              </div>
            ))}
          </div>
        </>
      )}
    </fieldset>
  );
}
