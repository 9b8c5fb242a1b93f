/** Choosing which rows of a list are shown, by what a column shows. */
import { Button, Checkbox, Field, Input, Select } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import { isInRange, rangeName, type RangeAddress } from '../../../sheet';
import { t, textOrder } from '../../../pane/locale';
import type { FilteredList, SheetFilter, ShownTexts, UniverWorkbook } from '../../univer';
import { headingsOf, ListAround, type AroundProps } from './list-around';

export const FilterPanel = ({ workbook }: { readonly workbook: UniverWorkbook }) => (
  <ListAround workbook={workbook} listAt={(selected) => listAround(workbook, selected)}>
    {(around) => {
      const { range } = around.list;
      return <ListFilter key={`${range.sheet} ${rangeName(range)} ${around.selectedColumn}`} {...around} />;
    }}
  </ListAround>
);

/** The list of the filter that the selection is in, or the one around the selection. */
function listAround(workbook: UniverWorkbook, selected: RangeAddress): FilteredList | undefined {
  const own = workbook.lists
    .filters(selected.sheet)
    .find(({ range }) => isInRange(range, selected.row, selected.column));
  if (own) return own;
  const found = workbook.lists.listAt(selected);
  return found && { range: found.range, ...(found.table === undefined ? {} : { table: found.table }) };
}

function ListFilter({ workbook, list, selectedColumn, changes }: AroundProps<FilteredList>) {
  const { range } = list;
  const [column, setColumn] = useState(selectedColumn);
  const [headings, setHeadings] = useState<readonly string[]>([]);
  const [shown, setShown] = useState<ShownTexts>();
  const [refused, setRefused] = useState('');
  // Setting a filter is no change of cells: this has it read again.
  const [filter, setFilter] = useState<SheetFilter | undefined>(() => filterOf(workbook, list));

  // The same list is another object whenever something is drawn.
  const where = JSON.stringify(list);
  useEffect(() => {
    let gone = false;
    const seen = JSON.parse(where) as FilteredList;
    void headingsOf(workbook, seen.range, true).then((names) => !gone && setHeadings(names));
    void workbook.lists.shownTexts(seen.range, column).then((texts) => {
      if (gone) return;
      setShown(texts);
      setFilter(filterOf(workbook, seen));
    });
    return () => void (gone = true);
  }, [workbook, where, column, changes]);

  const change = async (what: Parameters<UniverWorkbook['lists']['filter']>[1]): Promise<void> => {
    setRefused((await workbook.lists.filter(list, what)) ?? '');
    setFilter(filterOf(workbook, list));
  };
  const asked = filter?.columns.find((one) => one.column === column);
  return (
    <div className="tool-body">
      <Field label={t('Column')}>
        <Select size="small" value={String(column)} onChange={(_event, { value }) => setColumn(Number(value))}>
          {headings.map((heading, index) => (
            <option key={heading} value={index}>
              {heading}
            </option>
          ))}
        </Select>
      </Field>
      {asked && !asked.values && (
        <p className="tool-said">
          {t(
            'This column has a filter by colours, dates or comparisons from another program. It is kept until you choose here.',
          )}
        </p>
      )}
      {shown && (
        <Choices
          key={column}
          shown={shown}
          chosen={asked?.values}
          blanks={asked?.values ? (asked.blanks ?? false) : true}
          onChoose={(wanted) => void change({ kind: 'choose', column, ...(wanted ? { asked: wanted } : {}) })}
        />
      )}
      <div className="tool-row">
        <Button
          size="small"
          disabledFocusable={!filter || filter.columns.length === 0}
          onClick={() => void change({ kind: 'clear' })}
        >
          {t('Show all rows')}
        </Button>
        {list.table === undefined && (
          <Button size="small" disabledFocusable={!filter} onClick={() => void change({ kind: 'remove' })}>
            {t('Remove filter')}
          </Button>
        )}
      </div>
      <p role="status" className="tool-said">
        {filter && filter.columns.length > 0
          ? t('{hidden, number} of {rows, number} rows hidden. Totals count all rows.', {
              hidden: filter.hidden,
              rows: range.rows - 1,
            })
          : t('All rows are shown.')}
      </p>
      {refused !== '' && (
        <p role="alert" className="tool-said" lang="en">
          {refused}
        </p>
      )}
    </div>
  );
}

const filterOf = (workbook: UniverWorkbook, { range, table }: FilteredList): SheetFilter | undefined =>
  workbook.lists
    .filters(range.sheet)
    .find((one) => one.table === table && (table !== undefined || rangeName(one.range) === rangeName(range)));

interface ChoicesProps {
  readonly shown: ShownTexts;
  /** Texts that are chosen now; left out where all are. */
  readonly chosen: readonly string[] | undefined;
  readonly blanks: boolean;
  /** Left out: all rows. */
  readonly onChoose: (wanted?: { readonly values: readonly string[]; readonly blanks?: boolean }) => void;
}

/** From so many choices on there is a field to search them. */
const MANY = 12;

function Choices({ shown, chosen, blanks, onChoose }: ChoicesProps) {
  const texts = [...shown.texts].sort(byNumber);
  const start = (): ReadonlySet<string> => {
    const isChosen = new Set(chosen?.map((text) => text.trim().toLowerCase()));
    return new Set(chosen ? texts.filter((text) => isChosen.has(text.toLowerCase())) : texts);
  };
  const [taken, setTaken] = useState(start);
  const [takesBlanks, setTakesBlanks] = useState(blanks);
  // What is chosen by the filter may change beside this list: it is taken up, and the keyboard stays where it is.
  const now = JSON.stringify([shown, chosen, blanks]);
  const [seen, setSeen] = useState(now);
  if (seen !== now) {
    setSeen(now);
    setTaken(start());
    setTakesBlanks(blanks);
  }
  const [search, setSearch] = useState('');
  const listed = texts.filter((text) => text.toLowerCase().includes(search.trim().toLowerCase()));
  const none = taken.size === 0 && !(takesBlanks && shown.blanks);
  const choose = (): void => {
    if (none) return;
    const isAll = taken.size === texts.length && (takesBlanks || !shown.blanks);
    const values = texts.filter((text) => taken.has(text));
    onChoose(isAll ? undefined : { values, ...(takesBlanks && shown.blanks ? { blanks: true } : {}) });
  };
  const put = (some: readonly string[], isTaken: boolean): void => {
    const next = new Set(taken);
    for (const text of some)
      if (isTaken) next.add(text);
      else next.delete(text);
    setTaken(next);
  };
  const putListed = (isTaken: boolean): void => {
    put(listed, isTaken);
    setTakesBlanks(isTaken);
  };
  return (
    <form
      className="tool-form"
      onSubmit={(event) => {
        event.preventDefault();
        choose();
      }}
    >
      {texts.length > MANY && (
        <Field label={t('Search the choices')}>
          <Input size="small" value={search} onChange={(_event, { value }) => setSearch(value)} />
        </Field>
      )}
      <div className="tool-row">
        <Button size="small" className="tool-first" onClick={() => putListed(true)}>
          {t('Choose all')}
        </Button>
        <Button size="small" onClick={() => putListed(false)}>
          {t('Choose none')}
        </Button>
      </div>
      <div className="tool-choices" role="group" aria-label={t('Rows to show')}>
        {listed.map((text) => (
          <Checkbox
            key={text}
            label={text}
            checked={taken.has(text)}
            onChange={(_event, { checked }) => put([text], checked === true)}
          />
        ))}
        {shown.blanks && search === '' && (
          <Checkbox
            label={t('(blank)')}
            checked={takesBlanks}
            onChange={(_event, { checked }) => setTakesBlanks(checked === true)}
          />
        )}
      </div>
      <div className="tool-row">
        <Button size="small" appearance="primary" type="submit" disabledFocusable={none}>
          {t('Show chosen rows')}
        </Button>
        {none && <span className="tool-said">{t('Choose one at least.')}</span>}
      </div>
    </form>
  );
}

/** Numbers by their size, then texts. */
function byNumber(a: string, b: string): number {
  const [x, y] = [Number(a), Number(b)];
  if (Number.isNaN(x) || Number.isNaN(y))
    return Number(Number.isNaN(x)) - Number(Number.isNaN(y)) || textOrder().compare(a, b);
  return x - y;
}
