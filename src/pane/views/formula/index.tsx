/** The view 'Formula': a function is chosen, filled in with numbers or cells, seen, and inserted into the sheet. */
import { Button, Input, Link, mergeClasses, Select } from '@fluentui/react-components';
import { useEffect, useId, useLayoutEffect, useRef, useState, type KeyboardEvent, type RefObject } from 'react';
import { UNIT_SYSTEMS, type Definition, type UnitSystem } from '../../../functions';
import { cellName, rangeName } from '../../../sheet';
import { mark, t, type Marked } from '../../locale';
import { onEscape, useFocus } from '../../shared/element';
import { TabFrame } from '../../shared/tab-frame';
import { useStore } from '../../shared/store';
import { useTab } from '../../shared/tab-store';
import type { PaneContext } from '../../shared/view';
import { ArgumentField } from './argument-field';
import { fieldsOf, foldedFields, takesUnits } from './definitions';
import { Drawing } from './drawing';
import { InsertStore } from './insert-store';
import { Picker } from './picker';
import { Result } from './result';
import { useStyles } from './styles';
import { targetWords } from './places';

export function Body({ pane }: { readonly pane: PaneContext }) {
  const [store, { definition, message }] = useTab(() => new InsertStore(pane));
  return (
    <TabFrame store={store} message={message}>
      {definition ? (
        <Form key={definition.name} store={store} definition={definition} helpUrl={pane.helpUrl} />
      ) : (
        <Picker store={store} />
      )}
    </TabFrame>
  );
}

const UNIT_WORDS: Readonly<Record<UnitSystem, Marked>> = { 'in-lb': mark('inch, pound'), 'mm-kg': mark('metric') };

interface Props {
  readonly store: InsertStore;
  readonly definition: Definition;
  readonly helpUrl: ((functionName: string) => string) | undefined;
}

/** The form of one function, made from its definition alone. */
function Form({ store, definition, helpUrl }: Props) {
  const styles = useStyles();
  const { units, form, status, mend, entries } = useStore(store);
  const body = useRef<HTMLDivElement>(null);
  useEffect(() => body.current?.querySelector<HTMLElement>('input, select')?.focus(), []);

  const stuck = useRef<HTMLDivElement>(null);
  useStuck(body, stuck);

  const { shown, more } = foldedFields(definition);
  const [unfolded, setUnfolded] = useState(more.some(({ name }) => entries[name]));
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && !event.defaultPrevented) store.close();
    if (event.key !== 'F2') return;
    event.preventDefault();
    void store.useSelection();
  };
  return (
    <>
      <div className={styles.bar}>
        <Button
          size="small"
          appearance="subtle"
          className={styles.toList}
          aria-label={t('All functions')}
          title={t('Back to all functions (Esc)')}
          onClick={() => store.close()}
        >
          {t('‹ All')}
        </Button>
        <h2 className={styles.heading}>{definition.name}</h2>
        {takesUnits(definition) && (
          <Select
            size="small"
            className={styles.units}
            aria-label={t('Units')}
            value={units}
            onChange={(_event, { value }) => store.setUnits(value as UnitSystem)}
          >
            {UNIT_SYSTEMS.map((system) => (
              <option key={system} value={system}>
                {t(UNIT_WORDS[system])}
              </option>
            ))}
          </Select>
        )}
      </div>
      <div ref={body} className={styles.body} tabIndex={-1} onKeyDown={onKeyDown}>
        <p className={styles.text}>{definition.summary}</p>
        <div ref={stuck} className={styles.stuck}>
          {form?.figure && <Drawing figure={form.figure} />}
          {status === 'failed' ? (
            <p className={mergeClasses(styles.result, styles.wrong)}>{mend}</p>
          ) : (
            form && <Result key={definition.name} definition={definition} form={form} units={units} />
          )}
          <UseSelection store={store} definition={definition} />
        </div>
        {shown.map((parameter) => (
          <ArgumentField key={parameter.name} store={store} parameter={parameter} />
        ))}
        {more.length > 0 && (
          <Button
            size="small"
            appearance="subtle"
            className={styles.more}
            aria-expanded={unfolded}
            onClick={() => setUnfolded(!unfolded)}
          >
            {unfolded ? t('Fewer') : t('More: {fields}', { fields: more.map(({ name }) => name).join(', ') })}
          </Button>
        )}
        {unfolded &&
          more.map((parameter) => <ArgumentField key={parameter.name} store={store} parameter={parameter} />)}
        <p className={styles.source}>
          {t('From: {source}', { source: definition.source })}
          {helpUrl && (
            <>
              {' · '}
              <Link href={helpUrl(definition.name)} target="_blank" rel="noreferrer" inline>
                {t('About {name}', { name: definition.name })}
              </Link>
            </>
          )}
        </p>
      </div>
      <Dock store={store} />
    </>
  );
}

/** The sheet's selection for the field that is being filled in, and what that field takes. */
function UseSelection({ store, definition }: Pick<Props, 'store' | 'definition'>) {
  const styles = useStyles();
  const { selection, current, units } = useStore(store);
  const field = fieldsOf(definition).find(({ name }) => name === current);
  if (!field) return null;
  return (
    <div className={styles.use}>
      <Button
        size="small"
        className={styles.useButton}
        disabledFocusable={!selection}
        title={t(
          'Use the selection: puts the selected cells of the sheet into the field {field} (F2). F4 in the field fixes them with $.',
          { field: field.name },
        )}
        // The field keeps the focus, and with it the place where typing goes on.
        onMouseDown={(event) => event.preventDefault()}
        onClick={() => void store.useSelection()}
      >
        {selection
          ? t('Use {range} for {field}', {
              range: rangeName(selection),
              field: field.name,
            })
          : t('Use the selection')}
      </Button>
      <span className={styles.limits}>{t('takes {what}', { what: field.takes(units) })}</span>
    </div>
  );
}

/** Pixels that fields are left to be seen in. */
const LEAST = 150;

/**
 * Keeps `block` at the top of the scrolling `body`: all of it where the fields below still have room, and else its
 * last child alone, so that no field is hidden under it when it gets the focus.
 */
function useStuck(body: RefObject<HTMLElement | null>, block: RefObject<HTMLElement | null>): void {
  useLayoutEffect(() => {
    const [outer, inner] = [body.current, block.current];
    if (!outer || !inner) return;
    const place = (): void => {
      const height = inner.offsetHeight;
      const last = inner.lastElementChild instanceof HTMLElement ? inner.lastElementChild.offsetHeight : 0;
      const kept = outer.clientHeight - height >= LEAST ? height : last;
      inner.style.top = `${kept - height}px`;
      outer.style.scrollPaddingTop = `${kept + 4}px`;
    };
    const observer = new ResizeObserver(place);
    observer.observe(outer);
    observer.observe(inner);
    return () => observer.disconnect();
  }, [body, block]);
}

/** The formula's text, where it goes, and the button that puts it there. */
function Dock({ store }: { readonly store: InsertStore }) {
  const styles = useStyles();
  const { form, selection, target, question } = useStore(store);
  const insert = useRef<HTMLButtonElement>(null);
  const asked = question !== undefined;
  const wasAsked = useRef(asked);
  useEffect(() => {
    // After the answer the button that asked is there again; who has gone on to the sheet is not called back.
    if (wasAsked.current && !asked && document.activeElement === document.body) insert.current?.focus();
    wasAsked.current = asked;
  }, [asked]);
  const where = target
    ? rangeName(target.kind === 'fill' ? target.range : { ...target.range, rows: 1, columns: 1 })
    : selection
      ? cellName(selection.row, selection.column)
      : undefined;
  const ready = form?.formula !== undefined && target !== undefined && target.problem === undefined;
  return (
    <div className={styles.dock}>
      <div className={styles.formulaLine}>
        <code className={styles.formula} tabIndex={0} role="textbox" aria-readonly="true" aria-label={t('The formula')}>
          {form?.pieces.map(({ text, missing }, index) => (
            <span key={index} className={missing && styles.missing}>
              {text}
              {text === ',' && <wbr />}
            </span>
          ))}
        </code>
        <Button size="small" disabledFocusable={form?.formula === undefined} onClick={() => void store.copy()}>
          {t('Copy')}
        </Button>
      </div>
      <FillDown store={store} />
      {question === undefined ? (
        <div className={styles.line}>
          <Button
            ref={insert}
            size="small"
            appearance="primary"
            disabledFocusable={!ready}
            onClick={() => void store.insert()}
          >
            {where === undefined ? t('Insert') : t('Insert at {range}', { range: where })}
          </Button>
          <span className={mergeClasses(styles.grow, target?.problem !== undefined ? styles.wrong : styles.quiet)}>
            {target
              ? (target.problem ?? targetWords(target))
              : selection
                ? t('Goes into the selected cell once it is filled in.')
                : t('Select a cell in the sheet: the formula goes there.')}
          </span>
        </div>
      ) : (
        <Question store={store} count={question} />
      )}
    </div>
  );
}

/** Asked once; the safe answer has the focus. */
function Question({ store, count }: { readonly store: InsertStore; readonly count: number }) {
  const styles = useStyles();
  const id = useId();
  const keep = useFocus<HTMLButtonElement>(true);
  return (
    <div role="group" aria-labelledby={id} className={styles.question} onKeyDown={onEscape(() => store.keep())}>
      <span id={id} role="alert" className={styles.grow}>
        {t(
          '{count, plural, one {# cell there is not empty: write over it?} other {# cells there are not empty: write over them?}}',
          { count },
        )}
      </span>
      <Button ref={keep} size="small" onClick={() => store.keep()}>
        {t('Keep')}
      </Button>
      <Button size="small" appearance="primary" onClick={() => void store.insert(true)}>
        {t('Write over')}
      </Button>
    </div>
  );
}

function FillDown({ store }: { readonly store: InsertStore }) {
  const styles = useStyles();
  const { fill, form, selection } = useStore(store);
  const [draft, setDraft] = useState<string>();
  const id = useId();
  // Room is kept for it wherever it can appear, so that nothing moves when a cell is filled in.
  if (!fill.possible && !form?.definition.rowWise) return null;
  const end = fill.typedEnd ?? fill.listEnd;
  const put = (text: string): void => {
    setDraft(text);
    if (/^\d{1,7}$/.test(text.trim())) store.fillTo(Number(text));
  };
  return (
    <div className={styles.line}>
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={fill.possible && fill.wanted}
          disabled={!fill.possible}
          onChange={(event) => store.fillDown(event.target.checked)}
        />
        <span id={id}>{t('Fill down to row')}</span>
      </label>
      <Input
        size="small"
        className={styles.row}
        disabled={!fill.possible}
        inputMode="numeric"
        autoComplete="off"
        aria-labelledby={id}
        value={draft ?? (end === undefined ? '' : String(end))}
        onChange={(_event, { value }) => put(value)}
        onBlur={() => setDraft(undefined)}
      />
      <span className={mergeClasses(styles.grow, styles.quiet)}>
        {form?.outcome.kind === 'cells'
          ? t('a column fills its rows by itself')
          : !fill.possible
            ? t('when fields name cells of a row')
            : fill.wanted && fill.strays.length > 0
              ? t('{ranges} moves along: F4 in its field fixes it', { ranges: fill.strays.join(', ') })
              : fill.typedEnd === undefined && fill.listEnd !== undefined && fill.listEnd > (selection?.row ?? 0) + 1
                ? t('as far as the list goes')
                : ''}
      </span>
    </div>
  );
}
