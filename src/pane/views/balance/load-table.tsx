/** A load to type at each station, with the station's arm and range. */
import { mergeClasses } from '@fluentui/react-components';
import { useId, useState } from 'react';
import { LOADING, type BalanceModel, type Loading, type StationRow } from '../../../project';
import { t, type FieldUnit } from '../../locale';
import { Why } from '../../shared/field';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { columnUnit } from '../../shared/cell-text';
import { ScrollTable, TableHead } from '../../shared/scroll-table';
import { figuresIn, type Figures } from './balance-numbers';
import { useStyles } from './styles';

export function LoadTable({
  store,
  model,
  loading,
}: {
  readonly store: BalanceStore;
  readonly model: BalanceModel;
  readonly loading: Loading;
}) {
  const styles = useStyles();
  const { sheet, columns } = loading.form;
  const unit = columnUnit(LOADING, loading.form, 'load');
  if (columns.load === undefined)
    return (
      <p className={styles.text}>
        {t('The sheet {sheet} has no column Load: put the label in its header row.', { sheet })}
      </p>
    );
  if (model.stations.length === 0)
    return (
      <p className={styles.text}>
        {t('The sheet {sheet} has no station that is complete: a name, an arm and a most.', { sheet })}
      </p>
    );
  const say = figuresIn(model.units);
  return (
    <ScrollTable className={styles.table}>
      <colgroup>
        <col />
        <col style={{ width: '96px' }} />
      </colgroup>
      <TableHead heads={[t('Station'), { number: unit ? t('Load, {unit}', { unit: unit.unit.sign }) : t('Load') }]} />
      <tbody>
        {model.stations.map((station) => (
          <LoadRow
            key={station.row}
            store={store}
            station={station}
            sheet={sheet}
            column={columns.load!}
            unit={unit}
            say={say}
          />
        ))}
      </tbody>
    </ScrollTable>
  );
}

interface LoadRowProps {
  readonly store: BalanceStore;
  readonly station: StationRow;
  readonly sheet: string;
  readonly column: number;
  readonly unit: FieldUnit | undefined;
  readonly say: Figures;
}

function LoadRow({ store, station, sheet, column, unit, say }: LoadRowProps) {
  const styles = useStyles();
  const id = useId();
  const [wrong, setWrong] = useState<string>();
  const { row, name, arm, min, max, load, fuel } = station;
  const below = store.problemAt(sheet, row, column);
  const range = { arm: say.arm(arm), least: say.plain(min), most: say.plain(max), unit: say.unit('weight') };
  const out =
    load > max
      ? t('{by} over its most', { by: say.weight(load - max) })
      : load < min
        ? t('{by} under its least', { by: say.weight(min - load) })
        : undefined;
  return (
    <tr>
      <th scope="row">
        {name}
        <span className={mergeClasses(styles.note, styles.label)}>
          {fuel ? t('{arm} · {least} to {most} {unit} · tank', range) : t('{arm} · {least} to {most} {unit}', range)}
        </span>
        <span id={id} className={mergeClasses(styles.note, styles.wrong)}>
          {wrong === undefined && below === undefined ? out : <Why own={wrong} below={below} />}
        </span>
      </th>
      <td>
        <CellField
          store={store}
          sheet={sheet}
          row={row}
          column={column}
          kind="number"
          unit={unit}
          label={
            unit
              ? t('Load of {station}, {unit}', { station: name, unit: unit.unit.sign })
              : t('Load of {station}', { station: name })
          }
          describedBy={id}
          onWrong={setWrong}
        />
      </td>
    </tr>
  );
}
