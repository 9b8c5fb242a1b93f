/** The formula's text, where it goes, and the button that puts it there. */
import { Button, Input, mergeClasses } from '@fluentui/react-components';
import { useEffect, useId, useRef, useState } from 'react';
import { cellName, rangeName } from '../../../sheet';
import { t } from '../../locale';
import { useStore } from '../../shared/store';
import type { InsertStore } from './insert-store';
import { useStyles } from './styles';
import { targetWords } from './target';

export function Dock({ store }: { readonly store: InsertStore }) {
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
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    keep.current?.focus();
  }, []);
  return (
    <div
      role="group"
      aria-labelledby={id}
      className={styles.question}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        store.keep();
      }}
    >
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
    const row = /^\d{1,7}$/.test(text.trim()) ? Number(text) : undefined;
    if (row !== undefined) store.fillTo(row);
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
