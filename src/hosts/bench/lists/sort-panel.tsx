/** Sorting the rows of a list by one column, or by two. */
import { Button, Checkbox, Field, Select } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { rangeName, type RangeAddress } from '../../../sheet';
import { t } from '../../../pane/locale';
import type { ListRange, SortKey, UniverWorkbook } from '../../univer';
import { headingsOf, ListAround, type AroundProps } from './list-around';

type Said = { readonly kind: 'done' | 'refused'; readonly text: string } | undefined;

export const SortPanel = ({ workbook }: { readonly workbook: UniverWorkbook }) => (
  <ListAround workbook={workbook} listAt={(selected) => workbook.lists.listAt(selected)}>
    {(around) => <SortList key={`${around.list.range.sheet} ${rangeName(around.list.range)}`} {...around} />}
  </ListAround>
);

function SortList({ workbook, list, selectedColumn, changes }: AroundProps<ListRange>) {
  const { table, part } = list;
  const [onlyPart, setOnlyPart] = useState(false);
  const range = onlyPart && part ? part : list.range;
  const [hasHeadings, setHasHeadings] = useState(list.hasHeadings);
  const [headings, setHeadings] = useState<readonly string[]>([]);
  const [first, setFirst] = useState<SortKey>({
    column: range.column + selectedColumn,
    descending: false,
  });
  const [second, setSecond] = useState<SortKey>();
  const [said, setSaid] = useState<Said>();

  // The same range is another object whenever something is drawn.
  const where = JSON.stringify(range);
  useEffect(() => {
    let gone = false;
    void headingsOf(workbook, JSON.parse(where) as RangeAddress, hasHeadings).then(
      (names) => !gone && setHeadings(names),
    );
    return () => void (gone = true);
  }, [workbook, where, hasHeadings, changes]);

  const rows = hasHeadings ? { ...range, row: range.row + 1, rows: range.rows - 1 } : range;
  const sort = async (): Promise<void> => {
    setSaid(undefined);
    const refused = await workbook.lists.sort(rows, second ? [first, second] : [first]);
    const done = t('{count, plural, one {# row is} other {# rows are}} in order. Ctrl+Z takes it back.', {
      count: rows.rows,
    });
    setSaid(refused === undefined ? { kind: 'done', text: done } : { kind: 'refused', text: refused });
  };
  return (
    <form
      className="tool-body"
      onSubmit={(event) => {
        event.preventDefault();
        void sort();
      }}
    >
      <p className="tool-said">{t('Rows {rows} on {sheet}', { rows: rangeName(rows), sheet: range.sheet })}</p>
      <Checkbox
        label={t('The first row has headers')}
        checked={hasHeadings}
        disabled={table !== undefined}
        onChange={(_event, { checked }) => setHasHeadings(checked === true)}
      />
      {part && (
        <Checkbox
          label={t('The selected columns alone; those beside them stay')}
          checked={onlyPart}
          onChange={(_event, { checked }) => {
            setOnlyPart(checked === true);
            setFirst({ ...first, column: part.column });
            setSecond(undefined);
          }}
        />
      )}
      <Field label={t('Sort by')}>
        <Columns
          headings={headings}
          first={range.column}
          value={first.column}
          onChange={(column) => setFirst({ ...first, column: column! })}
        />
      </Field>
      <Order value={first} label={t('Order')} onChange={setFirst} />
      <Field label={t('Then by')}>
        <Columns
          headings={headings}
          first={range.column}
          value={second?.column}
          none={t('nothing else')}
          onChange={(column) =>
            setSecond(column === undefined ? undefined : { column, descending: second?.descending ?? false })
          }
        />
      </Field>
      {second && <Order value={second} label={t('Order, second column')} onChange={setSecond} />}
      <div className="tool-row">
        <Button size="small" appearance="primary" type="submit">
          {t('Sort rows')}
        </Button>
      </div>
      <Outcome said={said} />
    </form>
  );
}

const Outcome = ({ said }: { readonly said: Said }) =>
  said?.kind === 'refused' ? (
    <p role="alert" className="tool-said" lang="en">
      {said.text}
    </p>
  ) : (
    <p role="status" className="tool-said">
      {said?.text}
    </p>
  );

interface ColumnsProps {
  readonly headings: readonly string[];
  /** The list's first column on the sheet. */
  readonly first: number;
  readonly value: number | undefined;
  /** What is chosen where no column is. */
  readonly none?: string;
  readonly onChange: (column: number | undefined) => void;
}

const Columns = ({ headings, first, value, none, onChange, ...field }: ColumnsProps) => (
  <Select
    {...field}
    size="small"
    value={value === undefined ? '' : String(value)}
    onChange={(_event, { value: chosen }) => onChange(chosen === '' ? undefined : Number(chosen))}
  >
    {none !== undefined && <option value="">{none}</option>}
    {headings.map((heading, index) => (
      <option key={heading} value={first + index}>
        {heading}
      </option>
    ))}
  </Select>
);

const Order = ({
  value,
  label,
  onChange,
}: {
  readonly value: SortKey;
  readonly label: string;
  readonly onChange: (key: SortKey) => void;
}) => (
  <Field label={label}>
    <Select
      size="small"
      value={value.descending ? 'down' : 'up'}
      onChange={(_event, { value: chosen }) => onChange({ ...value, descending: chosen === 'down' })}
    >
      <option value="up">{t('smallest first, A to Z')}</option>
      <option value="down">{t('largest first, Z to A')}</option>
    </Select>
  </Field>
);
