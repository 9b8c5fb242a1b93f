/** One field's input: a choice or a line of text, the same in the grid and in a row's form. */
import { Input, Select, type InputProps, type SelectProps } from '@fluentui/react-components';
import {
  priceColumn,
  PRICE_KINDS,
  SALE_UNITS,
  SOLD_AS,
  type PriceColumnKey,
  type PriceKind,
} from '../../../core/price';
import { t } from '../../locale';

export interface FieldInputProps {
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
}

const SOME_CURRENCY = 'USD';

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
}: FieldInputProps) {
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
