/** What each column of a list means, as guessed and as chosen, with the first rows as they are read by that. */
import { Button, Checkbox, Select } from '@fluentui/react-components';
import { useEffect, useRef } from 'react';
import { unitIn } from '../../core/quantity';
import {
  GAUGE,
  lackingLabel,
  lackingOf,
  meaningLabel,
  MEANINGS,
  numberIn,
  piecesOf,
  readMatched,
  unitChoices,
  weightBySize,
  type MatchedList,
  type SheetMatch,
} from '../../project';
import { isBlank, textIn } from '../../sheet';
import { t } from '../locale';
import { ColumnMapping } from '../shared/csv-import';
import { sayIn } from '../shared/quantities';
import { ScrollTable, TableHead } from '../shared/scroll-table';
import type { MatchDraft, MatchStore } from './match-store';
import { useStyles } from './styles';

const LABELS = MEANINGS.map(meaningLabel);

export function MatchPanel({
  store,
  draft,
  wrong,
}: {
  readonly store: MatchStore;
  readonly draft: MatchDraft;
  readonly wrong: string | undefined;
}) {
  const styles = useStyles();
  const { match, cells, headers } = draft;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const of = (column: number) => match.columns.find((one) => one.column === column);
  const missing = lackingOf(match.columns).map(lackingLabel);
  const weight = match.columns.find(({ means }) => means === 'weight');
  const asks = weight !== undefined && weight.readAs === '';
  const ready = missing.length === 0 && !asks;
  const title = t('Match the columns of {sheet}', { sheet: match.sheet });
  return (
    <section className={styles.panel} aria-label={title}>
      <h2 ref={heading} tabIndex={-1} className={styles.heading}>
        {title}
      </h2>
      <p className={styles.text}>
        {t(
          'Your sheet stays as it is. What its columns mean is kept on a sheet Matches, which you can read and change.',
        )}
      </p>
      <ColumnMapping
        headers={headers}
        columns={LABELS}
        mapping={headers.map((_, column) => {
          const means = of(column)?.means;
          return means === undefined ? undefined : MEANINGS.indexOf(means);
        })}
        className={styles.mapping}
        from={t('In the list')}
        to={t('Means')}
        beside={{ label: t('Unit'), cell: (column) => <UnitChoice store={store} draft={draft} column={column} /> }}
        onMap={(column, place) => store.mean(column, place === undefined ? undefined : MEANINGS[place])}
      />
      {match.columns.some(({ unit }) => unit === GAUGE) && (
        <p className={styles.quiet}>
          {t('Gauge numbers are read as Brown & Sharpe (ASTM B258), the gauge of aluminium sheet: 20 is 0.0320 in.')}
        </p>
      )}
      <WeightOf store={store} draft={draft} />
      <ComponentOf store={store} match={match} />
      {draft.alike.length > 0 && (
        <Checkbox
          checked={draft.withAlike}
          onChange={(_event, { checked }) => store.takeAlike(checked === true)}
          label={t('Also for {sheets}: the headers are the same', { sheets: draft.alike.join(', ') })}
        />
      )}
      <p role="status" className={styles.text}>
        {missing.length > 0
          ? t('No column is taken for {labels}. Choose one above.', { labels: missing.join(', ') })
          : asks
            ? t('Say whether the weight is of each piece or of all pieces.')
            : ''}
      </p>
      <div className={styles.buttons}>
        <Button appearance="primary" disabledFocusable={!ready} onClick={() => void (ready && store.keep())}>
          {t('Use this list')}
        </Button>
        <Button onClick={() => store.close()}>{t('Cancel')}</Button>
      </div>
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
      {missing.length === 0 && <Preview list={readMatched(match, cells)} />}
    </section>
  );
}

function UnitChoice({
  store,
  draft,
  column,
}: {
  readonly store: MatchStore;
  readonly draft: MatchDraft;
  readonly column: number;
}) {
  const one = draft.match.columns.find((match) => match.column === column);
  const choices = one ? unitChoices(one.means) : [];
  if (!one || choices.length === 0) return null;
  return (
    <Select
      size="small"
      aria-label={t('Unit of {column}', { column: one.header })}
      value={one.unit}
      onChange={(_event, { value }) => store.measure(column, value)}
    >
      {choices.map((sign) => (
        <option key={sign} value={sign}>
          {sign === GAUGE ? t('gauge') : sign}
        </option>
      ))}
    </Select>
  );
}

/** Asked where rows have quantities: nobody can see it in the numbers. */
function WeightOf({ store, draft: { match, weightBy } }: { readonly store: MatchStore; readonly draft: MatchDraft }) {
  const styles = useStyles();
  const weight = match.columns.find(({ means }) => means === 'weight');
  if (!weight || !match.columns.some(({ means }) => means === 'quantity')) return null;
  const why =
    weightBy === 'header'
      ? t('The header says so.')
      : weightBy === 'total'
        ? t('A total in the list says so.')
        : weightBy === 'no quantity'
          ? t('Each row has one piece.')
          : '';
  const choices = [
    { readAs: 'each piece', label: t('of each piece; the quantity multiplies it') },
    { readAs: 'all pieces', label: t('of all pieces of the row') },
  ] as const;
  return (
    <fieldset className={styles.choices}>
      <legend className={styles.legend}>{t('{header} is', { header: weight.header })}</legend>
      {choices.map(({ readAs, label }) => (
        <label key={readAs} className={styles.choice}>
          <input
            type="radio"
            name="match-weight"
            checked={weight.readAs === readAs}
            onChange={() => store.readAs('weight', readAs)}
          />
          {label}
        </label>
      ))}
      {why !== '' && <p className={styles.quiet}>{why}</p>}
    </fieldset>
  );
}

function ComponentOf({ store, match }: { readonly store: MatchStore; readonly match: SheetMatch }) {
  const styles = useStyles();
  const column = match.columns.find(({ means }) => means === 'component');
  if (column) {
    return (
      <Checkbox
        checked={column.readAs === 'as above'}
        onChange={(_event, { checked }) => store.readAs('component', checked === true ? 'as above' : '')}
        label={t('A blank cell under {header} is as the one above it', { header: column.header })}
      />
    );
  }
  return (
    <label className={styles.field}>
      {t('Component of each part')}
      <Select
        size="small"
        value={match.component ?? 'sheet'}
        onChange={(_event, { value }) => store.takeComponent(value === 'headings' ? 'headings' : 'sheet')}
      >
        <option value="sheet">{t('the sheet’s name, {sheet}', { sheet: match.sheet })}</option>
        <option value="headings">{t('the heading above it, in a row of its own')}</option>
      </Select>
    </label>
  );
}

/** How many rows are shown, enough to see whether columns are matched rightly. */
const SHOWN = 5;

/** Said wherever such weights are summed: an estimate that is too high, if anything. */
export const bySizeText = (count: number): string =>
  t(
    '{count, plural, one {The weight of # part is} other {The weights of # parts are}} reckoned from material and size; holes and trimmings are not taken off.',
    { count },
  );

/** The first rows of a matched list as they are read, what all of them weigh, and what is left out. */
function Preview({ list: { rows, system, problems } }: { readonly list: MatchedList }) {
  const styles = useStyles();
  const units = system === 'both' ? 'in-lb' : system;
  const say = sayIn(units);
  const weights = rows.map(({ cells }) => numberIn(cells.weight) ?? weightBySize(cells, piecesOf(cells), system));
  const total = weights.reduce<number>((sum, weight) => sum + (weight ?? 0), 0);
  const bySize = rows.filter(({ cells }, index) => isBlank(cells.weight) && weights[index] !== undefined).length;
  const lacking = weights.filter((weight) => weight === undefined).length;
  const unit = (dimension: 'weight' | 'length'): string => unitIn(dimension, units).sign;
  const number = (value: number | undefined, dimension: 'weight' | 'length', places: number): string =>
    value === undefined ? '' : say.bare(value, dimension, places);
  return (
    <>
      <p className={styles.text}>
        {t('{count, plural, one {# part} other {# parts}}, together {weight} {unit}.', {
          count: rows.length,
          weight: number(total, 'weight', 2),
          unit: unit('weight'),
        })}
      </p>
      {bySize > 0 && <p className={styles.text}>{bySizeText(bySize)}</p>}
      {lacking > 0 && (
        <p className={styles.text}>
          {t(
            '{count, plural, one {# part has no weight and is} other {# parts have no weight and are}} left out of it.',
            {
              count: lacking,
            },
          )}
        </p>
      )}
      <ScrollTable className={styles.preview}>
        <caption className={styles.caption}>{t('The first rows, as they are read')}</caption>
        <TableHead
          heads={[
            t('Part'),
            t('Component'),
            t('Pieces'),
            t('All pieces, {unit}', { unit: unit('weight') }),
            t('Arm, {unit}', { unit: unit('length') }),
          ]}
        />
        <tbody>
          {rows.slice(0, SHOWN).map(({ row, cells }, index) => (
            <tr key={row}>
              <th scope="row">{textIn(cells.part)}</th>
              <td>{textIn(cells.component)}</td>
              <td>{textIn(cells.quantity ?? 1)}</td>
              <td>{number(weights[index], 'weight', 3)}</td>
              <td>{number(numberIn(cells.arm), 'length', 2)}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
      {problems.length > 0 && (
        <details>
          <summary>{t('{count, plural, one {# row} other {# rows}} left out', { count: problems.length })}</summary>
          <ul>
            {problems.map(({ cell, message }) => (
              <li key={cell}>
                {cell} <span lang="en">{message}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
