/** One parameter as a field: what it is called, what it is, what was typed, and what the cells hold. */
import { Button, Input, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useId, useState, type KeyboardEvent } from 'react';
import type { Parameter } from '../../../functions';
import { t } from '../../locale';
import { useFocus } from '../../shared/element';
import { useStore } from '../../shared/store';
import type { InsertStore } from './insert-store';
import { isOneCell } from './places';
import type { FieldReading } from './reading';
import { useStyles } from './styles';
import { defaultWords, fieldUnit, heldWords } from './formula-words';

/** A help text that is longer than this is shown above its field, not beside it. */
const LONG_HELP = 60;
/** What is typed half is wrong only when it stays so for this many ms. */
const PATIENCE = 700;
const FROM_CELL = '=';

// eslint-disable-next-line complexity -- what the field shows or leaves out
export function ArgumentField({ store, parameter }: { readonly store: InsertStore; readonly parameter: Parameter }) {
  const styles = useStyles();
  const { form, units } = useStore(store);
  const id = useId();
  const { name, help, kind } = parameter;
  const text = store.textOf(name);
  const reading = form?.fields[name];
  const settled = useSettled(text);
  const wrong = settled.is ? reading?.wrong : undefined;
  const held = reading?.typed.kind === 'formula' && reading.held !== undefined ? reading : undefined;
  const unit = fieldUnit(parameter, units);

  const choices = kind === 'flag' ? FLAG : parameter.choices;
  const [asCells, setAsCells] = useState(false);
  const input = useFocus<HTMLInputElement>(asCells);
  const asList = choices !== undefined && !asCells && (text === '' || choices.includes(text));

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') settled.now();
    if (event.key !== 'F4') return;
    event.preventDefault();
    store.relock(name);
  };
  const describedBy = [`${id}-help`, held && `${id}-held`, wrong !== undefined && `${id}-wrong`]
    .filter(Boolean)
    .join(' ');
  const common = {
    id,
    size: 'small',
    className: styles.input,
    'aria-describedby': describedBy,
    'aria-invalid': wrong !== undefined ? true : undefined,
    onFocus: () => store.focus(name),
    onBlur: settled.now,
  } as const;
  const omitted = defaultWords(parameter, units);
  const back = choices && (
    <Button
      size="small"
      appearance="transparent"
      className={styles.back}
      aria-label={t('Choose {name} from a list', { name })}
      title={t('Choose from a list')}
      onClick={() => {
        store.type(name, '');
        setAsCells(false);
      }}
    >
      ▾
    </Button>
  );
  return (
    <div
      className={mergeClasses(styles.field, (help.length > LONG_HELP || parameter.shape !== 'cell') && styles.stacked)}
    >
      <div>
        <label htmlFor={id} className={styles.label}>
          {name}
          {unit && <span className={styles.quiet}> {`(${unit})`}</span>}
          {parameter.optional && <span className={styles.quiet}> {t('optional')}</span>}
        </label>
        <span id={`${id}-help`} className={styles.help}>
          {help}
        </span>
      </div>
      <div>
        {asList ? (
          <Select
            {...common}
            value={text}
            onChange={(_event, { value }) => {
              if (value === FROM_CELL) setAsCells(true);
              else store.type(name, value);
            }}
          >
            <option value="">{unchosenWords(parameter.optional, omitted)}</option>
            {choices.map((choice) => (
              <option key={choice} value={choice}>
                {kind === 'flag' ? (choice === 'TRUE' ? t('yes') : t('no')) : choice}
              </option>
            ))}
            <option value={FROM_CELL}>{t('from a cell …')}</option>
          </Select>
        ) : (
          <Input
            {...common}
            input={{ ref: input }}
            value={text}
            placeholder={omitted}
            autoComplete="off"
            spellCheck={false}
            {...(back ? { contentAfter: back } : {})}
            onChange={(_event, { value }) => store.type(name, value)}
            onKeyDown={onKeyDown}
          />
        )}
        <span id={`${id}-held`} className={styles.held} title={held ? heldWords(held.held) : undefined}>
          {held && wordsOfHeld(held)}
        </span>
      </div>
      {wrong !== undefined && (
        <span id={`${id}-wrong`} className={styles.fault}>
          {wrong}
        </span>
      )}
    </div>
  );
}

/** What the list shows while nothing is chosen. */
function unchosenWords(optional: boolean, omitted: string): string {
  if (!optional) return t('Choose …');
  return omitted ? t('{value} (when omitted)', { value: omitted }) : t('left out');
}

/** What the cells hold that the field names: of one cell with its name. */
const wordsOfHeld = ({ typed, place, held }: FieldReading): string =>
  typed.kind === 'formula' && place && isOneCell(place)
    ? t('{reference}: {value}', { reference: typed.text, value: heldWords(held) })
    : heldWords(held);

const FLAG: readonly string[] = ['TRUE', 'FALSE'];

/** Whether a text has stood for a while, or was left or confirmed. */
function useSettled(text: string): { readonly is: boolean; now(): void } {
  const [settled, setSettled] = useState(text);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(text), PATIENCE);
    return () => clearTimeout(timer);
  }, [text]);
  return { is: settled === text, now: () => setSettled(text) };
}
