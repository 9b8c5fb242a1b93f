/** Figures as a plain table: a heading a row, numbers to the right. */
import { mergeClasses } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { ScrollTable } from '../../shared/scroll-table';
import { useTableStyles } from './styles';

export interface DataRow {
  readonly key: string | number;
  readonly head: ReactNode;
  readonly cells?: readonly ReactNode[];
  readonly strong?: boolean;
}

export interface DataGroup {
  readonly key: string;
  /** Heading over the group's rows. */
  readonly head: string;
  readonly rows: readonly DataRow[];
}

export function DataTable({
  caption,
  columns,
  rows = [],
  groups = [],
}: {
  readonly caption: string;
  /** Headings of the columns; the first one is above the rows' own headings. */
  readonly columns: readonly string[];
  readonly rows?: readonly DataRow[];
  readonly groups?: readonly DataGroup[];
}) {
  const styles = useTableStyles();
  return (
    <ScrollTable className={styles.table}>
      <caption className={styles.caption}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((label, index) => (
            <th key={label} scope="col" className={index > 0 ? styles.numeric : undefined}>
              {label}
            </th>
          ))}
        </tr>
      </thead>
      {rows.length > 0 && <tbody>{rows.map(line)}</tbody>}
      {groups.map(({ key, head, rows: own }) => (
        <tbody key={key}>
          <tr className={styles.group}>
            <th scope="rowgroup" colSpan={columns.length}>
              {head}
            </th>
          </tr>
          {own.map(line)}
        </tbody>
      ))}
    </ScrollTable>
  );

  function line({ key, head, cells = [], strong }: DataRow) {
    return (
      <tr key={key} className={strong ? styles.strong : undefined}>
        <th scope="row">{head}</th>
        {cells.map((cell, index) => (
          <td key={columns[index + 1]} className={mergeClasses(styles.numeric, styles.kept)}>
            {cell}
          </td>
        ))}
      </tr>
    );
  }
}
