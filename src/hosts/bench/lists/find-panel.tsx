/** Finding texts on the sheet or in the workbook, and replacing them. */
import { Button, Checkbox, Field, Input } from '@fluentui/react-components';
import { useRef, useState, type KeyboardEvent } from 'react';
import { fullName, type CellPlace } from '../../../sheet';
import { mark, t } from '../../../pane/locale';
import type { FindQuery, Replaced, UniverWorkbook } from '../../univer';

const OPTIONS = [
  ['matchCase', mark('Match case')],
  ['wholeCell', mark('Whole cell')],
  ['everywhere', mark('All sheets')],
] as const;

export function FindPanel({ workbook }: { readonly workbook: UniverWorkbook }) {
  const [text, setText] = useState('');
  const [replacement, setReplacement] = useState('');
  const [options, setOptions] = useState({ matchCase: false, wholeCell: false, everywhere: false });
  const [said, setSaid] = useState('');
  const busy = useRef(false);

  const query = async (): Promise<FindQuery> => ({
    text,
    matchCase: options.matchCase,
    wholeCell: options.wholeCell,
    sheets: options.everywhere ? await sheetsFrom(workbook) : [workbook.sheetInView],
  });
  /** One thing after the other, however fast the keys come. */
  const once = (work: () => Promise<string>) => (): void => {
    if (busy.current) return;
    busy.current = true;
    const answer = text === '' ? Promise.resolve(t('Type what to find.')) : work();
    void answer.then(setSaid).finally(() => (busy.current = false));
  };
  const onEnter =
    (work: () => Promise<string>, needsShift = false) =>
    (event: KeyboardEvent): void => {
      if (event.key !== 'Enter' || (needsShift && !event.shiftKey)) return;
      event.preventDefault();
      once(work)();
    };
  const go = async (step: 1 | -1): Promise<string> => {
    const asked = await query();
    const found = await workbook.lists.find(asked);
    const index = await nextOf(workbook, found, asked.sheets, step);
    if (index === undefined) return t('Not found. Hidden rows are left out.');
    const cell = { ...found[index]!, rows: 1, columns: 1 };
    await workbook.select(cell);
    return t('{number} of {count}: {cell}', {
      number: String(index + 1),
      count: String(found.length),
      cell: fullName(cell),
    });
  };
  const replaceOne = async (): Promise<string> => {
    const asked = await query();
    const here = await workbook.selection();
    const found = await workbook.lists.find(asked);
    const cell = found.find(
      ({ sheet, row, column }) => here?.sheet === sheet && here.row === row && here.column === column,
    );
    if (!cell) return go(1);
    const done = await workbook.lists.replace(asked, replacement, [cell]);
    return `${replacedText(done)} ${await go(1)}`;
  };
  const replaceAll = async (): Promise<string> => {
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
          onKeyDown={onEnter(() => go(-1), true)}
        />
      </Field>
      <Field label={t('Replace with')}>
        <Input
          size="small"
          value={replacement}
          onChange={(_event, { value }) => setReplacement(value)}
          onKeyDown={onEnter(replaceOne)}
        />
      </Field>
      <div className="tool-row">
        {OPTIONS.map(([option, label]) => (
          <Checkbox
            key={option}
            label={t(label)}
            checked={options[option]}
            onChange={(_event, { checked }) => setOptions({ ...options, [option]: checked === true })}
          />
        ))}
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

/** All sheets that are shown, the one in view first. */
async function sheetsFrom(workbook: UniverWorkbook): Promise<string[]> {
  const names = (await workbook.sheets()).filter(({ visible }) => visible).map(({ name }) => name);
  const first = Math.max(0, names.indexOf(workbook.sheetInView));
  return [...names.slice(first), ...names.slice(0, first)];
}

/** The place among the cells that were found of the one behind the selected cell, or before it, around the end. */
async function nextOf(
  workbook: UniverWorkbook,
  found: readonly CellPlace[],
  sheets: readonly string[],
  step: 1 | -1,
): Promise<number | undefined> {
  if (found.length === 0) return undefined;
  const here = await workbook.selection();
  const order = ({ sheet, row, column }: CellPlace): readonly number[] => [sheets.indexOf(sheet), row, column];
  const from = order(here ?? { sheet: '', row: -1, column: -1 });
  const isBehind = (cell: CellPlace): boolean => compare(order(cell), from) * step > 0;
  const index = step > 0 ? found.findIndex(isBehind) : found.findLastIndex(isBehind);
  return index >= 0 ? index : step > 0 ? 0 : found.length - 1;
}

function compare(a: readonly number[], b: readonly number[]): number {
  const place = a.findIndex((number, index) => number !== b[index]);
  return place < 0 ? 0 : a[place]! - b[place]!;
}

function replacedText({ count, left }: Replaced): string {
  const texts = [t('{count, plural, one {# cell changed.} other {# cells changed.}}', { count })];
  const spills = left.filter((one) => one.why === 'spill');
  if (spills[0])
    texts.push(
      t(
        '{count, plural, one {# cell is} other {# cells are}} filled by the formula in {formula} and not changed. Change that formula.',
        { count: spills.length, formula: spills[0].formula },
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
  const choices = left.filter((one) => one.why === 'choices');
  if (choices[0])
    texts.push(
      t('{count, plural, one {# cell takes} other {# cells take}} only what is on its list, and “{text}” is not.', {
        count: choices.length,
        text: choices[0].text,
      }),
    );
  return texts.join(' ');
}
