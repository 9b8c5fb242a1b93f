import { Button, Input, mergeClasses, Select } from '@fluentui/react-components';
import { AddRegular, ArrowRedoRegular, ArrowSortDownRegular, ArrowSortUpRegular, ArrowUndoRegular } from '@fluentui/react-icons';
import { useRef, type RefObject } from 'react';
import { PRICE_COLUMNS } from '../../core/price';
import { SHOWS, type Show, type SortKey } from './arrange';
import type { ImportDesk } from './import-desk';
import type { PricesStore } from './prices-store';
import { OLD_AFTER } from './quote-age';
import type { PricesState } from './state';
import { usePanelStyles } from './styles';

export interface ToolbarProps {
  readonly store: PricesStore;
  readonly desk: ImportDesk;
  readonly state: PricesState;
  /** Ids of the rows that are shown, in their order. */
  readonly order: readonly number[];
  readonly addButton: RefObject<HTMLButtonElement | null>;
  readonly importButton: RefObject<HTMLButtonElement | null>;
}

const SORTS: readonly { readonly value: SortKey; readonly label: string }[] = [
  { value: 'sheet', label: 'as in sheet' },
  ...PRICE_COLUMNS.map(({ key, header }) => ({ value: key, label: header })),
  { value: 'unit', label: 'Unit price' },
];

export function Toolbar({ store, desk, state, order, addButton, importButton }: ToolbarProps) {
  const styles = usePanelStyles();
  const file = useRef<HTMLInputElement>(null);
  const { arrangement, oldAfter, adding } = state;
  const sorted = arrangement.sort !== 'sheet' || arrangement.descending;
  return (
    <div className={styles.toolbar}>
      <div className={styles.line}>
        <Button ref={addButton} size="small" appearance="primary" icon={<AddRegular />} aria-expanded={Boolean(adding)} onClick={() => store.openNew()}>
          Add item
        </Button>
        <Button size="small" appearance="subtle" icon={<ArrowUndoRegular />} aria-label="Undo" title="Undo (Ctrl+Z)" onClick={() => void store.undo()} />
        <Button size="small" appearance="subtle" icon={<ArrowRedoRegular />} aria-label="Redo" title="Redo (Ctrl+Y)" onClick={() => void store.redo()} />
        <span className={styles.spacer} />
        <Button ref={importButton} size="small" title="Bring in a CSV file" onClick={() => file.current?.click()}>
          Import
        </Button>
        <Button size="small" title="Save the list as a CSV file" onClick={() => store.exportCsv()}>
          Export
        </Button>
        <input
          ref={file}
          type="file"
          accept=".csv,.txt,text/csv,text/plain"
          aria-label="CSV file"
          className={styles.offScreen}
          onChange={(event) => {
            const [chosen] = event.target.files ?? [];
            if (chosen) void desk.open(chosen.name, chosen.arrayBuffer());
            // The same file can be chosen again after it was mended.
            event.target.value = '';
          }}
        />
      </div>
      <div className={styles.line}>
        <Input size="small" type="search" className={styles.filter} aria-label="Filter" placeholder="Filter by any word" value={arrangement.text} onChange={(_event, { value }) => store.arrange({ text: value })} />
        <Select size="small" className={styles.select} aria-label="Show" value={arrangement.show} onChange={(_event, { value }) => store.arrange({ show: value as Show })}>
          {SHOWS.map(({ value, label }) => (
            <option key={value} value={value}>
              {`Show: ${label}`}
            </option>
          ))}
        </Select>
        <span className={styles.sort}>
          <Select size="small" className={styles.select} aria-label="Sort" value={arrangement.sort} onChange={(_event, { value }) => store.arrange({ sort: value as SortKey })}>
            {SORTS.map(({ value, label }) => (
              <option key={value} value={value}>
                {`Sort: ${label}`}
              </option>
            ))}
          </Select>
          <Button
            size="small"
            appearance="subtle"
            icon={arrangement.descending ? <ArrowSortDownRegular /> : <ArrowSortUpRegular />}
            aria-label={arrangement.descending ? 'Sorted downwards: sort upwards' : 'Sorted upwards: sort downwards'}
            title={arrangement.descending ? 'Downwards' : 'Upwards'}
            onClick={() => store.arrange({ descending: !arrangement.descending })}
          />
        </span>
        <Select size="small" className={mergeClasses(styles.select, styles.age)} aria-label="A quote is old after" title="Kept on this computer, not in the workbook" value={String(oldAfter)} onChange={(_event, { value }) => store.setOldAfter(Number(value))}>
          {OLD_AFTER.map((months) => (
            <option key={months} value={months}>
              {months === 0 ? 'Old: never' : `Old: ${months} months`}
            </option>
          ))}
        </Select>
        {sorted && (
          <Button size="small" onClick={() => void store.sortSheet(order)}>
            Sort the sheet like this
          </Button>
        )}
      </div>
    </div>
  );
}
