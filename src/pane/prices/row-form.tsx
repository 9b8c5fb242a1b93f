/** A whole row as labelled fields: for adding, and for what the grid has no column for. */
import { Button, Field, mergeClasses } from '@fluentui/react-components';
import { useEffect, useRef, type FormEvent, type KeyboardEvent, type ReactNode } from 'react';
import { PRICE_COLUMNS, type PriceColumnKey } from '../../core/price';
import { changedUnder, checkDraft, type Draft } from './draft';
import type { DraftId } from './draft-store';
import { FieldInput } from './field-input';
import type { Places, PriceLine } from './lines';
import type { PricesStore } from './prices-store';
import { useFormStyles } from './styles';
import { unitDigits, unitPrice } from './unit-price';
import { contentsHint } from './words';

const WIDE: ReadonlySet<PriceColumnKey> = new Set(['item', 'note']);
const LABELS: Partial<Record<PriceColumnKey, string>> = { from: 'From (sale units)', currency: 'Currency' };
const HINTS: Partial<Record<PriceColumnKey, string>> = { from: 'Blank: from the first' };

export interface RowFormProps {
  readonly store: PricesStore;
  readonly id: DraftId;
  readonly draft: Draft;
  readonly line: PriceLine | undefined;
  readonly places: Places;
  readonly saveLabel: string;
  /** More buttons, after Save and Cancel. */
  readonly children?: ReactNode;
  /** Called when the form has closed by Save or Cancel. */
  onClosed(): void;
}

export function RowForm({ store, id, draft, line, places, saveLabel, children, onClosed }: RowFormProps) {
  const styles = useFormStyles();
  const form = useRef<HTMLFormElement>(null);
  const { row, problems } = checkDraft(draft, line, places);
  const kind = draft.texts.kind ?? '';
  const soldBy = draft.texts.soldBy ?? '';

  useEffect(() => {
    form.current?.scrollIntoView({ block: 'nearest' });
    (firstWrong(form.current) ?? form.current?.querySelector('input'))?.focus({ preventScroll: true });
  }, []);

  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const saving = store.save(id);
    // A row that is right is shut before it is in the sheet: the focus must not wait for that.
    if (!store.draft(id)) {
      onClosed();
      return;
    }
    await saving;
    // After adding, the form stays for the next item; after a refusal, for mending.
    requestAnimationFrame(() => (firstWrong(form.current) ?? form.current?.querySelector('input'))?.focus());
  };
  const cancel = (): void => {
    store.cancel(id);
    onClosed();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    cancel();
  };
  const unit = row && unitPrice(row);

  return (
    <form ref={form} onSubmit={(event) => void save(event)} onKeyDown={onKeyDown} noValidate aria-label={id === 'new' ? 'New item' : `Details of ${draft.texts.item ?? ''}`}>
      <div className={styles.fields}>
        {PRICE_COLUMNS.filter(({ key }) => places.has(key)).map(({ key, header, required }) => {
          const under = line && changedUnder(draft, line, places, key);
          const problem = draft.shown.has(key) ? problems.get(key) : undefined;
          const hint = key === 'contents' ? (contentsHint(kind, soldBy) ?? (soldBy ? 'Not needed here' : undefined)) : HINTS[key];
          return (
            <Field
              key={key}
              size="small"
              className={WIDE.has(key) ? styles.wide : undefined}
              label={LABELS[key] ?? header}
              required={required}
              validationState={problem ? 'error' : 'none'}
              validationMessage={problem && withoutLabel(problem, header)}
              hint={under === undefined ? hint : `The sheet now says ${under === '' ? 'a blank' : under}; saving keeps yours.`}
            >
              <FieldInput column={key} value={draft.texts[key] ?? ''} kind={kind} className={styles.control} numericClassName={styles.numericInput} onText={(text) => store.type(id, key, text)} onLeave={() => store.leave(id, key)} />
            </Field>
          );
        })}
      </div>
      <div className={styles.unitLine}>
        {unit?.each === undefined ? unit?.why : `Unit price: ${unit.each.toFixed(unitDigits([unit.each]))} ${row?.currency ?? ''} ${unit.per}`}
      </div>
      {draft.refused && (
        <div role="alert" className={styles.refused}>
          {draft.refused}
        </div>
      )}
      <div className={mergeClasses(styles.buttons, id === 'new' && styles.sticky)}>
        <Button size="small" appearance="primary" type="submit">
          {saveLabel}
        </Button>
        <Button size="small" type="button" onClick={cancel}>
          {id === 'new' ? 'Close' : 'Cancel'}
        </Button>
        {children && <span className={styles.spacer} />}
        {children}
      </div>
    </form>
  );
}

const firstWrong = (form: HTMLElement | null): HTMLElement | null | undefined => form?.querySelector<HTMLElement>('[aria-invalid="true"]');

/** The label stands above the field already. */
const withoutLabel = (problem: string, label: string): string => (problem.startsWith(`${label}: `) ? problem.slice(label.length + 2) : problem);
