/** Finding texts on the sheet or in the workbook, and replacing them. */
import { Button, Checkbox, Field, Input } from '@fluentui/react-components';
import { useRef, useState } from 'react';
import { cellName, quoteSheet } from '../../../sheet';
import { t } from '../../../pane/locale';
import type { FindQuery, FoundCell, Replaced, UniverWorkbook } from '../../univer';
import type { PanelProps } from './tools';

export function FindPanel({ workbook }: PanelProps) {
  const [text, setText] = useState('');
  const [replacement, setReplacement] = useState('');
  const [matchCase, setMatchCase] = useState(false);
  const [wholeCell, setWholeCell] = useState(false);
  const [everywhere, setEverywhere] = useState(false);
  const [said, setSaid] = useState('');
  const busy = useRef(false);

  const query = async (): Promise<FindQuery> => ({
    text,
    matchCase,
    wholeCell,
    sheets: everywhere ? await sheetsFrom(workbook) : [workbook.sheetInView],
  });
  /** One thing after the other, however fast the keys come. */
  const once = (work: () => Promise<string>) => (): void => {
    if (busy.current) return;
    busy.current = true;
    void work()
      .then(setSaid)
      .finally(() => (busy.current = false));
  };
  const go = async (step: 1 | -1): Promise<string> => {
    if (text === '') return t('Type what to find.');
    const asked = await query();
    const found = await workbook.lists.find(asked);
    const index = await nextOf(workbook, found, asked.sheets, step);
    if (index === undefined) return t('Not found. Hidden rows are left out.');
    const { sheet, row, column } = found[index]!;
    await workbook.select({ sheet, row, column, rows: 1, columns: 1 });
    return t('{number} of {count}: {cell}', {
      number: String(index + 1),
      count: String(found.length),
      cell: nameOf(found[index]!),
    });
  };
  const replaceOne = async (): Promise<string> => {
    if (text === '') return t('Type what to find.');
    const asked = await query();
    const here = await workbook.selection();
    const found = await workbook.lists.find(asked);
    const cell = found.find(({ sheet, row, column }) => isAt(here, sheet, row, column));
    if (!cell) return go(1);
    const done = await workbook.lists.replace(asked, replacement, [cell]);
    const next = await go(1);
    return [replacedText(done), next].join(' ');
  };
  const replaceAll = async (): Promise<string> => {
    if (text === '') return t('Type what to find.');
    const done = await workbook.lists.replace(await query(), replacement);
    return done.count + done.left.length === 0 ? t('Not found. Hidden rows are left out.') : replacedText(done);
  };

  return (
    <form
      className="tool-body"
      onSubmit={(event) => {
        event.preventDefault();
        once(() => go(1))();
      }}
    >
      <Field label={t('Find')}>
        <Input
          size="small"
          value={text}
          onChange={(_event, { value }) => setText(value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter' || !event.shiftKey) return;
            event.preventDefault();
            once(() => go(-1))();
          }}
        />
      </Field>
      <Field label={t('Replace with')}>
        <Input
          size="small"
          value={replacement}
          onChange={(_event, { value }) => setReplacement(value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            once(replaceOne)();
          }}
        />
      </Field>
      <div className="tool-row">
        <Checkbox
          label={t('Match case')}
          checked={matchCase}
          onChange={(_event, { checked }) => setMatchCase(checked === true)}
        />
        <Checkbox
          label={t('Whole cell')}
          checked={wholeCell}
          onChange={(_event, { checked }) => setWholeCell(checked === true)}
        />
        <Checkbox
          label={t('All sheets')}
          checked={everywhere}
          onChange={(_event, { checked }) => setEverywhere(checked === true)}
        />
      </div>
      <div className="tool-row">
        <Button size="small" appearance="primary" type="submit">
          {t('Find next')}
        </Button>
        <Button size="small" onClick={once(() => go(-1))}>
          {t('Find previous')}
        </Button>
        <Button size="small" onClick={once(replaceOne)}>
          {t('Replace')}
        </Button>
        <Button size="small" onClick={once(replaceAll)}>
          {t('Replace all')}
        </Button>
      </div>
      <p role="status" className="tool-said">
        {said}
      </p>
    </form>
  );
}

const nameOf = ({ sheet, row, column }: FoundCell): string => `${quoteSheet(sheet)}!${cellName(row, column)}`;

/** All sheets that are shown, the one in view first. */
async function sheetsFrom(workbook: UniverWorkbook): Promise<string[]> {
  const names = (await workbook.sheets()).filter(({ visible }) => visible).map(({ name }) => name);
  const first = Math.max(0, names.indexOf(workbook.sheetInView));
  return [...names.slice(first), ...names.slice(0, first)];
}

type Selected = Awaited<ReturnType<UniverWorkbook['selection']>>;

const isAt = (selected: Selected, sheet: string, row: number, column: number): boolean =>
  selected?.sheet === sheet && selected.row === row && selected.column === column;

/** The place among the cells that were found of the one behind the selected cell, or before it, around the end. */
async function nextOf(
  workbook: UniverWorkbook,
  found: readonly FoundCell[],
  sheets: readonly string[],
  step: 1 | -1,
): Promise<number | undefined> {
  if (found.length === 0) return undefined;
  const here = await workbook.selection();
  const order = (sheet: string, row: number, column: number): [number, number, number] => [
    sheets.indexOf(sheet),
    row,
    column,
  ];
  const from = order(here?.sheet ?? '', here?.row ?? -1, here?.column ?? -1);
  const isBehind = (cell: FoundCell): boolean => compare(order(cell.sheet, cell.row, cell.column), from) * step > 0;
  const index = step > 0 ? found.findIndex(isBehind) : found.findLastIndex(isBehind);
  return index >= 0 ? index : step > 0 ? 0 : found.length - 1;
}

function compare(a: readonly number[], b: readonly number[]): number {
  const place = a.findIndex((number, index) => number !== b[index]);
  return place < 0 ? 0 : a[place]! - b[place]!;
}

function replacedText({ count, left }: Replaced): string {
  const texts = [t('{count, plural, one {# cell changed.} other {# cells changed.}}', { count })];
  const spills = left.filter(({ why }) => why === 'spill');
  const [spill] = spills;
  if (spill?.why === 'spill')
    texts.push(
      t(
        '{count, plural, one {# cell is} other {# cells are}} filled by the formula in {formula} and not changed. Change that formula.',
        { count: spills.length, formula: spill.formula },
      ),
    );
  const results = left.filter(({ why }) => why === 'result').length;
  if (results > 0)
    texts.push(
      t(
        '{count, plural, one {# formula gives} other {# formulas give}} this result without containing it; not changed.',
        {
          count: results,
        },
      ),
    );
  if (left.some(({ why }) => why === 'protected')) texts.push(t('Protected sheets are not changed.'));
  const choices = left.filter(({ why }) => why === 'choices');
  const [choice] = choices;
  if (choice?.why === 'choices')
    texts.push(
      t('{count, plural, one {# cell takes} other {# cells take}} only what is on its list, and “{text}” is not.', {
        count: choices.length,
        text: choice.text,
      }),
    );
  return texts.join(' ');
}
