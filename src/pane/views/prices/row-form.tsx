/** A whole row as labelled fields: for adding, and for what the grid has no column for. */
import { Button, Field, mergeClasses } from '@fluentui/react-components';
import { useEffect, useRef, type FormEvent, type KeyboardEvent, type ReactNode } from 'react';
import { PRICE_COLUMNS, type PriceColumnKey } from '../../../core/price';
import { t, writeNumber } from '../../locale';
import { changedUnder, checkDraft, sheetSays, type PriceDraft } from './price-draft';
import type { DraftId } from './draft-store';
import { FieldInput } from './field-input';
import type { Places, PriceLine } from './lines';
import type { PricesStore } from './prices-store';
import { useFormStyles } from './styles';
import { noUnitPrice, perUse, unitDigits, unitPrice } from './unit-price';
import { contentsHint } from './price-words';

/** Height of the grid's labels, which stay in sight above the form. */
const HEAD = 28;
const WIDE: ReadonlySet<PriceColumnKey> = new Set(['item', 'note']);

export interface RowFormProps {
  readonly store: PricesStore;
  readonly id: DraftId;
  readonly draft: PriceDraft;
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
  const { row, problems, unread } = checkDraft(draft, line, places);
  const { units } = store.state;
  const kind = draft.texts.kind ?? '';
  const soldBy = draft.texts.soldBy ?? '';

  useEffect(() => {
    const place = form.current?.closest('[role=grid]')?.parentElement;
    // A form that is higher than its place is shown from its beginning.
    form.current?.scrollIntoView({
      block: place && form.current.offsetHeight > place.clientHeight - HEAD ? 'start' : 'nearest',
    });
    (firstWrong(form.current) ?? form.current?.querySelector('input'))?.focus();
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
    // After adding, the form stays open for the next item; after a refusal, so that the fault can be fixed.
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
  const each = row && unitPrice(row, units);
  const hintOf = (key: PriceColumnKey): string | undefined => {
    if (key === 'contents') return contentsHint(kind, soldBy) ?? (soldBy ? t('Not needed here') : undefined);
    return key === 'from' ? t('Blank: no minimum') : undefined;
  };

  return (
    <form
      ref={form}
      onSubmit={(event) => void save(event)}
      onKeyDown={onKeyDown}
      noValidate
      aria-label={id === 'new' ? t('New item') : t('Details of {item}', { item: draft.texts.item ?? '' })}
    >
      <div className={styles.fields}>
        {PRICE_COLUMNS.filter(({ key }) => places.has(key)).map(({ key, label, required }) => {
          const under = line && changedUnder(draft, line, places, key);
          const problem = draft.shown.has(key) ? problems.get(key) : undefined;
          return (
            <Field
              key={key}
              size="small"
              className={WIDE.has(key) ? styles.wide : undefined}
              label={key === 'from' ? t('{column} (sale units)', { column: label }) : label}
              required={required}
              validationState={problem ? 'error' : 'none'}
              validationMessage={
                problem && <span lang={unread.has(key) ? undefined : 'en'}>{withoutLabel(problem, label)}</span>
              }
              hint={sheetSays(under) ?? hintOf(key)}
            >
              <FieldInput
                column={key}
                value={draft.texts[key] ?? ''}
                kind={kind}
                className={styles.control}
                numericClassName={styles.numericInput}
                onText={(text) => store.type(id, key, text)}
                onLeave={() => store.leave(id, key)}
              />
            </Field>
          );
        })}
      </div>
      <div className={styles.unitLine}>
        {row &&
          (each === undefined
            ? noUnitPrice(row)
            : t('Unit price: {price}', {
                price: [writeNumber(each, unitDigits([each], units)), row.currency, perUse(row.measure, units)]
                  .filter(Boolean)
                  .join(' '),
              }))}
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
          {id === 'new' ? t('Close') : t('Cancel')}
        </Button>
        {children && <span className={styles.spacer} />}
        {children}
      </div>
    </form>
  );
}

const firstWrong = (form: HTMLElement | null): HTMLElement | null | undefined =>
  form?.querySelector<HTMLElement>('[aria-invalid="true"]');

/** The label stands above the field already. */
const withoutLabel = (problem: string, label: string): string =>
  problem.startsWith(`${label}: `) ? problem.slice(label.length + 2) : problem;
