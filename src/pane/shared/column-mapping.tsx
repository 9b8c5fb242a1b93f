/** Which column of a file fills which column of a list: by their labels first, then as a person chooses. */
import { Select } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { t } from '../locale';
import { ScrollTable, TableHead } from './scroll-table';

/** For each column of the file, which column of the table it fills; undefined where it is left out. */
export type Mapping = readonly (number | undefined)[];

/** Each place is filled once, by the first column that is its own. */
export function mapColumns(
  headers: readonly string[],
  columns: readonly string[],
  isSame: (column: string, header: string) => boolean,
): Mapping {
  const taken = new Set<number>();
  return headers.map((header) => {
    const place = columns.findIndex((column, index) => !taken.has(index) && header !== '' && isSame(column, header));
    if (place < 0) return undefined;
    taken.add(place);
    return place;
  });
}

/** Lets a column of the file fill a place; another column that filled it gives way. */
export const remapped = (mapping: Mapping, column: number, place: number | undefined): Mapping =>
  mapping.map((old, index) => (index === column ? place : old === place ? undefined : old));

/** The columns of a file or of a sheet, each with the column of the list that it goes to. */
export function ColumnMapping({
  headers,
  columns,
  mapping,
  className,
  from = t('In the file'),
  to = t('Goes to'),
  beside,
  onMap,
}: {
  readonly headers: readonly string[];
  readonly columns: readonly string[];
  readonly mapping: Mapping;
  readonly className: string;
  readonly from?: string;
  readonly to?: string;
  /** What else is chosen of a column, with its heading. */
  readonly beside?: { readonly label: string; cell(column: number): ReactNode };
  onMap(column: number, place: number | undefined): void;
}) {
  return (
    <ScrollTable className={className}>
      <TableHead heads={[from, to, beside?.label]} />
      <tbody>
        {headers.map((header, index) => (
          <tr key={index}>
            <th scope="row">{header || t('(column {number})', { number: index + 1 })}</th>
            <td>
              <Select
                size="small"
                aria-label={t('{column} goes to', {
                  column: header || t('(column {number})', { number: index + 1 }),
                })}
                value={String(mapping[index] ?? '')}
                onChange={(_event, { value }) => onMap(index, value === '' ? undefined : Number(value))}
              >
                <option value="">{t('left out')}</option>
                {columns.map((column, place) => (
                  <option key={place} value={place}>
                    {column}
                  </option>
                ))}
              </Select>
            </td>
            {beside && <td>{beside.cell(index)}</td>}
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}
