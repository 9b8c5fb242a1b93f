/** A load to type at each station, with the station's arm and range. */
import { mergeClasses } from '@fluentui/react-components';
import { useId, useState } from 'react';
import type { BalanceModel, Loading, StationRow } from '../../workbook';
import type { BalanceStore } from './balance-store';
import { CellField } from './cell-field';
import { inches, plain, pounds } from './numbers';
import { useStyles } from './styles';

export function LoadTable({ store, model, loading }: { readonly store: BalanceStore; readonly model: BalanceModel; readonly loading: Loading }) {
  const styles = useStyles();
  const { load } = loading.form.columns;
  if (load === undefined) return <p className={styles.text}>The sheet {loading.form.sheet} has no column Load: put the label in its header row.</p>;
  if (model.stations.length === 0) return <p className={styles.text}>The sheet {loading.form.sheet} has no station that is complete: a name, an arm and a most.</p>;
  return (
    <table className={styles.table}>
      <colgroup>
        <col />
        <col style={{ width: '96px' }} />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Station</th>
          <th scope="col" data-number="">
            Load, lb
          </th>
        </tr>
      </thead>
      <tbody>
        {model.stations.map((station) => (
          <LoadRow key={station.row} store={store} station={station} sheet={loading.form.sheet} column={load} />
        ))}
      </tbody>
    </table>
  );
}

function LoadRow({ store, station, sheet, column }: { readonly store: BalanceStore; readonly station: StationRow; readonly sheet: string; readonly column: number }) {
  const styles = useStyles();
  const id = useId();
  const [wrong, setWrong] = useState<string>();
  const { row, name, arm, min, max, load, fuel } = station;
  const why = wrong ?? store.problemAt(sheet, row, column);
  const out = load > max ? `${pounds(load - max)} over its most` : load < min ? `${pounds(min - load)} under its least` : undefined;
  return (
    <tr>
      <th scope="row">
        {name}
        <span className={mergeClasses(styles.note, styles.label)}>
          {inches(arm)} · {plain(min)} to {plain(max)} lb
          {fuel && ' · tank'}
        </span>
        <span id={id} className={mergeClasses(styles.note, styles.wrong)}>
          {why ?? out}
        </span>
      </th>
      <td>
        <CellField store={store} sheet={sheet} row={row} column={column} kind="number" label={`Load of ${name}, lb`} describedBy={id} onWrong={setWrong} />
      </td>
    </tr>
  );
}
