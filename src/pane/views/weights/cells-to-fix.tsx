/** Cells that could not be read as they stand, each with the way to it. */
import { Button } from '@fluentui/react-components';
import { useId, useState } from 'react';
import { parseCell, quoteSheet } from '../../../sheet';
import type { Problem } from '../../../project';
import { t } from '../../locale';
import { useWeightsStyles } from './styles';
import type { WeightsStore } from './weights-store';

export function CellsToFix({
  store,
  problems,
  missing,
}: {
  readonly store: WeightsStore;
  readonly problems: readonly Problem[];
  /** Rows of rivets and hardware that the parts list has not got. */
  readonly missing: number;
}) {
  const styles = useWeightsStyles();
  const id = useId();
  const [open, setOpen] = useState(false);
  if (problems.length === 0) return null;
  return (
    <section className={styles.section} aria-label={t('Cells to fix')}>
      <Button size="small" aria-expanded={open} aria-controls={open ? id : undefined} onClick={() => setOpen(!open)}>
        {t('{count, plural, one {# cell} other {# cells}} to fix', { count: problems.length })}
      </Button>
      {missing > 0 && (
        <Button size="small" onClick={() => void store.addMissingRows()}>
          {t('Add {count, plural, one {the row} other {# rows}} of rivets and hardware', { count: missing })}
        </Button>
      )}
      {open && (
        <ul id={id} className={styles.list}>
          {problems.map(({ sheet, cell, message }) => {
            const place = parseCell(cell);
            const name = `${quoteSheet(sheet)}!${cell}`;
            return (
              <li key={`${name} ${message}`}>
                <button
                  type="button"
                  className={styles.link}
                  onClick={() =>
                    place &&
                    void store.select({ sheet, ...place, rows: 1, columns: 1 }, t('{cell} selected.', { cell: name }))
                  }
                >
                  {name}
                </button>{' '}
                <span lang="en">{message}</span>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}
