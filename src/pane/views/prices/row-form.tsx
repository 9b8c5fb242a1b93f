/** A whole row as labelled fields: for adding, and for what the grid has no column for. */
import {
  Button,
  Field,
  Input,
  mergeClasses,
  Select,
  type InputProps,
  type SelectProps,
} from '@fluentui/react-components';
import { useEffect, useRef, type FormEvent, type ReactNode } from 'react';
import {
  PRICE_COLUMNS,
  PRICE_KINDS,
  priceColumn,
  SALE_UNITS,
  SOLD_AS,
  type PriceColumnKey,
  type PriceKind,
} from '../../../core/price';
import { t, writeNumber } from '../../locale';
import { onEscape } from '../../shared/element';
import type { Places, PriceLine } from './lines';
import { checkDraft, sheetSays, type PriceDraft } from './price-draft';
import { contentsHint, noUnitPrice, perUse, unitDigits, unitPrice } from './price-words';
import type { DraftId, PricesStore } from './prices-store';
import { useFormStyles } from './styles';

/** Height of the grid's labels, which stay in sight above the form. */
const HEAD = 28;
const WIDE: ReadonlySet<PriceColumnKey> = new Set(['item', 'note']);

export function RowForm({
  store,
  id,
  draft,
  line,
  places,
  saveLabel,
  children,
  onClosed,
}: {
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
}) {
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
    if (!store.draft(id)) return onClosed();
    await saving;
    // After adding, the form stays open for the next item; after a refusal, so that the fault can be fixed.
    requestAnimationFrame(() => (firstWrong(form.current) ?? form.current?.querySelector('input'))?.focus());
  };
  const cancel = (): void => {
    store.cancel(id);
    onClosed();
  };
  const each = row && unitPrice(row, units);
  const hints: Partial<Record<PriceColumnKey, string | undefined>> = {
    contents: contentsHint(kind, soldBy) ?? (soldBy ? t('Not needed here') : undefined),
    from: t('Blank: no minimum'),
  };

  return (
    <form
      ref={form}
      onSubmit={(event) => void save(event)}
      onKeyDown={onEscape(cancel)}
      noValidate
      aria-label={id === 'new' ? t('New item') : t('Details of {item}', { item: draft.texts.item ?? '' })}
    >
      <div className={styles.fields}>
        {PRICE_COLUMNS.filter(({ key }) => places.has(key)).map(({ key, label, required }) => {
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
              hint={(line && sheetSays(draft, line, places, key)) ?? hints[key]}
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

const SOME_CURRENCY = 'USD';

/** One field's input: a choice or a line of text, the same in the grid and in a row's form. */
export function FieldInput({
  column,
  value,
  kind,
  className,
  numericClassName,
  grows = false,
  attributes,
  onText,
  onLeave,
}: {
  readonly column: PriceColumnKey;
  readonly value: string;
  /** Kind of the row, which settles what it can be sold by. */
  readonly kind: string;
  readonly className?: string;
  readonly numericClassName?: string;
  /** True: a number's field is as wide as what is typed, wherever it stands. */
  readonly grows?: boolean;
  /** Attributes of the input itself: ids, aria. */
  readonly attributes?: Readonly<Record<string, string | boolean | undefined>>;
  onText(text: string): void;
  onLeave?(): void;
}) {
  const { kind: type, choices } = priceColumn(column);
  if (type === 'choice' && choices) {
    const offered: readonly string[] = column === 'soldBy' ? (SOLD_AS[kind as PriceKind] ?? SALE_UNITS) : PRICE_KINDS;
    return (
      <Select
        size="small"
        className={className}
        value={value}
        onChange={(_event, data) => onText(data.value)}
        onBlur={onLeave}
        {...(attributes as SelectProps)}
      >
        {!offered.includes(value) && (
          <option value={value}>{value === '' ? t('Choose…') : t('{value} (not offered)', { value })}</option>
        )}
        {offered.map((choice) => (
          <option key={choice} value={choice}>
            {choice}
          </option>
        ))}
      </Select>
    );
  }
  const numeric = type === 'number' || type === 'money';
  return (
    <Input
      size="small"
      style={numeric && grows ? { minWidth: `calc(${value.length}ch + 20px)`, flexShrink: 0 } : undefined}
      className={numeric ? `${className ?? ''} ${numericClassName ?? ''}` : className}
      value={value}
      inputMode={numeric ? 'decimal' : undefined}
      placeholder={column === 'quotedOn' ? t('YYYY-MM-DD') : column === 'currency' ? SOME_CURRENCY : undefined}
      autoComplete="off"
      spellCheck={false}
      onChange={(_event, data) => onText(data.value)}
      onBlur={onLeave}
      {...(attributes as InputProps)}
    />
  );
}
