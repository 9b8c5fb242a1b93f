import { Button, Input, mergeClasses, Select } from '@fluentui/react-components';
import {
  AddRegular,
  ArrowRedoRegular,
  ArrowSortDownRegular,
  ArrowSortUpRegular,
  ArrowUndoRegular,
} from '@fluentui/react-icons';
import { useRef, type RefObject } from 'react';
import { PRICE_COLUMNS } from '../../../core/price';
import { t } from '../../locale';
import { CsvFileInput } from '../../shared/csv-import';
import { OLD_AFTER, SHOWS, type Show } from './arrange';
import { columnLabel, type SortKey } from './columns';
import type { ImportDesk } from './import-panel';
import type { PricesStore, PricesState } from './prices-store';
import { usePanelStyles } from './styles';

const SORTS: readonly SortKey[] = ['sheet', ...PRICE_COLUMNS.map(({ key }) => key), 'unit'];

export function Toolbar({
  store,
  desk,
  state: { arrangement, oldAfter, adding },
  order,
  addButton,
  importButton,
}: {
  readonly store: PricesStore;
  readonly desk: ImportDesk;
  readonly state: PricesState;
  /** Ids of the rows that are shown, in their order. */
  readonly order: readonly number[];
  readonly addButton: RefObject<HTMLButtonElement | null>;
  readonly importButton: RefObject<HTMLButtonElement | null>;
}) {
  const styles = usePanelStyles();
  const file = useRef<HTMLInputElement>(null);
  return (
    <div className={styles.toolbar}>
      <div className={styles.line}>
        <Button
          ref={addButton}
          size="small"
          appearance="primary"
          icon={<AddRegular />}
          aria-expanded={Boolean(adding)}
          onClick={() => store.openNew()}
        >
          {t('Add item')}
        </Button>
        <Button
          size="small"
          appearance="subtle"
          icon={<ArrowUndoRegular />}
          aria-label={t('Undo')}
          title={t('Undo (Ctrl+Z)')}
          onClick={() => void store.undo()}
        />
        <Button
          size="small"
          appearance="subtle"
          icon={<ArrowRedoRegular />}
          aria-label={t('Redo')}
          title={t('Redo (Ctrl+Y)')}
          onClick={() => void store.redo()}
        />
        <span className={styles.spacer} />
        <Button ref={importButton} size="small" title={t('Bring in a CSV file')} onClick={() => file.current?.click()}>
          {t('Import')}
        </Button>
        <Button size="small" title={t('Save the list as a CSV file')} onClick={() => store.exportCsv()}>
          {t('Export')}
        </Button>
        <CsvFileInput input={file} label={t('CSV file')} onFile={(name, bytes) => void desk.open(name, bytes)} />
      </div>
      <div className={styles.line}>
        <Input
          size="small"
          type="search"
          className={styles.filter}
          aria-label={t('Filter')}
          placeholder={t('Filter by any word')}
          value={arrangement.text}
          onChange={(_event, { value }) => store.arrange({ text: value })}
        />
        <Select
          size="small"
          className={styles.select}
          aria-label={t('Show')}
          value={arrangement.show}
          onChange={(_event, { value }) => store.arrange({ show: value as Show })}
        >
          {SHOWS.map(({ value, label }) => (
            <option key={value} value={value}>
              {t(label)}
            </option>
          ))}
        </Select>
        <span className={styles.sort}>
          <Select
            size="small"
            className={styles.select}
            aria-label={t('Sort')}
            value={arrangement.sort}
            onChange={(_event, { value }) => store.arrange({ sort: value as SortKey })}
          >
            {SORTS.map((value) => (
              <option key={value} value={value}>
                {value === 'sheet' ? t('Sort: as in sheet') : t('Sort: {column}', { column: columnLabel(value) })}
              </option>
            ))}
          </Select>
          <Button
            size="small"
            appearance="subtle"
            icon={arrangement.descending ? <ArrowSortDownRegular /> : <ArrowSortUpRegular />}
            aria-label={
              arrangement.descending ? t('Sorted downwards: sort upwards') : t('Sorted upwards: sort downwards')
            }
            title={arrangement.descending ? t('Downwards') : t('Upwards')}
            onClick={() => store.arrange({ descending: !arrangement.descending })}
          />
        </span>
        <Select
          size="small"
          className={mergeClasses(styles.select, styles.age)}
          aria-label={t('A quote is old after')}
          title={t('Kept on this computer, not in the workbook')}
          value={String(oldAfter)}
          onChange={(_event, { value }) => store.setOldAfter(Number(value))}
        >
          {OLD_AFTER.map((months) => (
            <option key={months} value={months}>
              {months === 0
                ? t('Old: never')
                : t('Old after {months, plural, one {# month} other {# months}}', { months })}
            </option>
          ))}
        </Select>
        {(arrangement.sort !== 'sheet' || arrangement.descending) && (
          <Button size="small" onClick={() => void store.sortSheet(order)}>
            {t('Sort the sheet like this')}
          </Button>
        )}
      </div>
    </div>
  );
}
