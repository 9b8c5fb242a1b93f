/** What the function gives for the form as it stands. */
import { mergeClasses } from '@fluentui/react-components';
import { useLayoutEffect, useRef, useState } from 'react';
import { unitSign, type Definition, type UnitSystem } from '../../../functions';
import { cellName, type Cell, type Matrix } from '../../../sheet';
import { t } from '../../locale';
import type { FormReading } from './reading';
import { useStyles } from './styles';
import { cellWords, listWords } from './formula-words';

/** Rows of a table that are shown. */
const FIRST = 3;

interface Props {
  readonly definition: Definition;
  readonly form: FormReading;
  readonly units: UnitSystem;
}

/** To be keyed by the function: what is below it stays where it is while the function's fields are filled in. */
export function Result({ definition, form, units }: Props) {
  const styles = useStyles();
  const { result } = definition;
  const place = useRef<HTMLDivElement>(null);
  const [tallest, setTallest] = useState(0);
  // A list of what is still to be filled in takes more lines than the result; the place keeps the most there were.
  useLayoutEffect(() => setTallest((before) => Math.max(before, place.current?.offsetHeight ?? 0)), [form]);
  return (
    <div
      ref={place}
      style={{ minHeight: tallest > 0 ? tallest : undefined }}
      className={mergeClasses(styles.result, result.kind === 'table' && styles.tall)}
      aria-live="polite"
    >
      <div className={styles.quiet}>{result.help}</div>
      <Shown definition={definition} form={form} units={units} />
    </div>
  );
}

function Shown({ definition, form, units }: Props) {
  const styles = useStyles();
  const { outcome } = form;
  const unit = definition.result.kind === 'table' ? '' : unitSign(definition.result.dimension, units);
  switch (outcome.kind) {
    case 'missing':
      return <div>{t('Still to fill in: {fields}', { fields: outcome.parameters.join(', ') })}</div>;
    case 'wrong':
      return <div className={styles.wrong}>{outcome.message ?? t('Fix the field marked red.')}</div>;
    case 'unread':
      return <div>{t('The sheet computes it when it is inserted. It cannot be shown here.')}</div>;
    case 'value':
      return outcome.cell === '' || outcome.cell === null ? (
        <div>{t('The cells are blank, and so is the result.')}</div>
      ) : (
        <div className={styles.value}>{withUnit(outcome.cell, unit)}</div>
      );
    case 'cells':
      return (
        <>
          {definition.result.kind === 'table' || (outcome.cells[0]?.length ?? 0) > 1 ? (
            <FirstRows definition={definition} cells={outcome.cells} />
          ) : (
            <div className={styles.value}>{`${listWords(outcome.cells.map(([cell]) => cell ?? null))} ${unit}`}</div>
          )}
          <div>
            {t('{rows, plural, one {# row} other {# rows}}', { rows: outcome.cells.length })}
            {outcome.firstError && (
              <span className={styles.wrong}>
                {' · '}
                {t('{count, plural, one {# error} other {# errors}}, the first in {row}: {message}', {
                  count: outcome.errors,
                  row: rowWords(form, outcome.firstError.row),
                  message: outcome.firstError.message,
                })}
              </span>
            )}
          </div>
        </>
      );
  }
}

const withUnit = (cell: Cell, unit: string): string =>
  typeof cell === 'number' && unit ? `${cellWords(cell)} ${unit}` : cellWords(cell);

/** The cell of the first column that was given, in the row of a result: where the sheet is to be looked at. */
function rowWords({ fields, outcome }: FormReading, row: number): string {
  const rows = outcome.kind === 'cells' ? outcome.cells.length : 0;
  const column = Object.values(fields).find(({ place }) => place && place.range.rows === rows && rows > 1)?.place
    ?.range;
  return column ? cellName(column.row + row, column.column) : t('row {row, number}', { row: row + 1 });
}

function FirstRows({ definition: { result }, cells }: { readonly definition: Definition; readonly cells: Matrix }) {
  const styles = useStyles();
  const heads = result.kind === 'table' ? result.columns : [];
  return (
    <div className={styles.scroll} tabIndex={0} role="group" aria-label={t('First rows of the result')}>
      <table className={styles.table}>
        {heads.length > 0 && (
          <thead>
            <tr>
              {heads.map(({ name }, column) => (
                <th key={name} scope="col" data-number={typeof cells[0]?.[column] === 'number' ? '' : undefined}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
        )}
        <tbody>
          {cells.slice(0, FIRST).map((line, r) => (
            <tr key={r}>
              {line.map((cell, c) => (
                <td key={c} data-number={typeof cell === 'number' ? '' : undefined}>
                  {cell === '' || cell === null ? '' : cellWords(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
