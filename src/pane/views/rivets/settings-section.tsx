/** What the comparison is computed from: minutes, money, tools, the makers' figures. The workbook holds it. */
import { Button } from '@fluentui/react-components';
import { useId, useRef, useState } from 'react';
import { inUnit } from '../../../core/quantity';
import { DEFAULT_TERMS } from '../../../core/rivet-choice';
import {
  COUNT_RULES,
  OPTION_LIST,
  RIVET_FACTS,
  RIVET_OPTIONS_SHEET,
  SHEAR_LIST,
  TOOL_LIST,
  type FormSheet,
  type RivetFact,
  type SheetForm,
} from '../../../project';
import { textIn, type Cell } from '../../../sheet';
import { t, type FieldUnit } from '../../locale';
import {
  cellText,
  columnUnit,
  ownLabel,
  readTypedCell,
  LabelledField,
  reasonId,
  useDraft,
  ValueField,
} from '../../shared/field';
import { rowBelow, writeCell } from '../../shared/edits';
import { clearRow } from './rivet-sheets';
import type { RivetsStore } from './rivets-store';
import { useStyles } from './styles';

const CHOICES: Readonly<Partial<Record<RivetFact, readonly string[]>>> = {
  secondPerson: ['yes', 'no'],
  countRule: COUNT_RULES,
};

export function SettingsSection({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  return (
    <section className={styles.section} aria-labelledby="rivets-settings">
      <h2 id="rivets-settings" className={styles.heading}>
        {t('What it rests on')}
      </h2>
      {store.state.sheets.options ? <Settings store={store} /> : <NoSheet store={store} />}
    </section>
  );
}

function NoSheet({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { solid, blind } = DEFAULT_TERMS.minutes;
  return (
    <>
      <p className={styles.text}>
        {t(
          'The usual options with the same number of rivets: {solid, number} minutes for a solid rivet and {blind, number} for a blind one (common practice, no source), your own time not paid, one person, no tool to buy.',
          { solid: solid.drill + solid.set, blind: blind.drill + blind.set },
        )}
      </p>
      <p className={styles.text}>
        {t(
          'With a sheet {sheet} in this workbook you choose the options, mix them by joint, and put in your own minutes, tools and labour rate.',
          { sheet: RIVET_OPTIONS_SHEET },
        )}
      </p>
      <Button appearance="primary" size="small" onClick={() => void store.addSheet()}>
        {t('Add the sheet {sheet}', { sheet: RIVET_OPTIONS_SHEET })}
      </Button>
    </>
  );
}

function Settings({ store }: { readonly store: RivetsStore }) {
  const styles = useStyles();
  const { facts, optionList, toolList, shearList } = store.state.sheets.options!;
  return (
    <>
      <p className={styles.quiet}>
        {t(
          'Everything here is on the sheet {sheet}. Its minutes are common practice without a source; a log of your own evenings is better.',
          { sheet: RIVET_OPTIONS_SHEET },
        )}
      </p>
      <div className={styles.facts}>
        {(Object.keys(RIVET_FACTS) as RivetFact[]).map((key) => {
          const fact = facts[key];
          const choices = CHOICES[key];
          return (
            fact && (
              <OptionField
                key={key}
                store={store}
                sheet={RIVET_OPTIONS_SHEET}
                row={fact.row}
                column={fact.column}
                cell={fact.value}
                kind={choices ? 'text' : 'number'}
                label={RIVET_FACTS[key]}
                {...(choices ? { choices } : {})}
              />
            )
          );
        })}
      </div>
      {optionList && (
        <ListEditor
          store={store}
          form={OPTION_LIST}
          found={optionList}
          numbers={[]}
          heading={t('Options')}
          addLabel={t('Add option')}
          help={t(
            '“as designed”, or solid, universal, flush or blind with a diameter and an alloy: solid 3/32, blind AS 1/8 (AA aluminium, AS steel stem, SS steel). The others are compared with the first.',
          )}
        />
      )}
      {toolList && (
        <ListEditor
          store={store}
          form={TOOL_LIST}
          found={toolList}
          numbers={['diameter', 'price', 'life']}
          heading={t('Tools')}
          addLabel={t('Add tool')}
          help={t(
            'Bought whole for the options that need them. A blank size is for all sizes; a blank life lasts longer than the job.',
          )}
        />
      )}
      {shearList && (
        <ListEditor
          store={store}
          form={SHEAR_LIST}
          found={shearList}
          numbers={['shear']}
          heading={t('Shear of blind rivets')}
          addLabel={t('Add figure')}
          help={t(
            'From the maker’s data sheet of the lot: the tables here have none. AA 1/8 is an aluminium rivet of 1/8 in.',
          )}
        />
      )}
    </>
  );
}

/** One of the lists of the sheet Rivet options, to type in. */
function ListEditor<K extends string>({
  store,
  form,
  found,
  numbers,
  heading,
  help,
  addLabel,
}: {
  readonly store: RivetsStore;
  readonly form: SheetForm<K>;
  readonly found: FormSheet<K>;
  readonly numbers: readonly K[];
  readonly heading: string;
  readonly help: string;
  readonly addLabel: string;
}) {
  const styles = useStyles();
  const [adding, setAdding] = useState<number>();
  const addButton = useRef<HTMLButtonElement>(null);
  const filled = found.rows.map(({ row }) => row);
  const rows = adding !== undefined && !filled.includes(adding) ? [...filled, adding] : filled;
  const first = form.columns[0]!.key;
  return (
    <>
      <h3 className={styles.subheading}>{heading}</h3>
      <p className={styles.quiet}>{help}</p>
      {rows.map((row) => {
        const cells = found.rows.find((one) => one.row === row)?.cells;
        const name = textIn(cells?.[first]) || t('row {row, number}', { row: row + 1 });
        return (
          <div key={row} className={styles.rowFields} role="group" aria-label={name}>
            {form.columns.map(({ key, label, choices }, index) => {
              const column = found.columns[key];
              if (column === undefined) return null;
              const unit = columnUnit(form, found, key);
              return (
                <div
                  key={key}
                  className={index === 0 || (!numbers.includes(key) && !choices) ? styles.wide : styles.narrow}
                >
                  <OptionField
                    store={store}
                    sheet={found.sheet}
                    row={row}
                    column={column}
                    cell={cells?.[key] ?? null}
                    kind={numbers.includes(key) ? 'number' : 'text'}
                    unit={unit}
                    label={ownLabel(label, unit)}
                    of={name}
                    autoFocus={index === 0 && row === adding}
                    {...(choices ? { choices } : {})}
                  />
                </div>
              );
            })}
            <Button
              size="small"
              appearance="subtle"
              aria-label={t('Remove {name}', { name })}
              onClick={() => {
                setAdding(undefined);
                addButton.current?.focus();
                if (cells)
                  void store.change(
                    t('Remove {name}', { name }),
                    clearRow(found, row),
                    t('Removed {name}. Undo brings it back.', { name }),
                  );
              }}
            >
              {t('Remove')}
            </Button>
          </div>
        );
      })}
      <div className={styles.buttons}>
        <Button ref={addButton} size="small" onClick={() => setAdding(rowBelow(found))}>
          {addLabel}
        </Button>
      </div>
    </>
  );
}

/** One cell of the sheet Rivet options as a field: written by Enter or by leaving it, Escape lets go. */
function OptionField({
  store,
  sheet,
  row,
  column,
  cell,
  unit,
  kind,
  label,
  of,
  choices,
  autoFocus,
}: {
  readonly store: RivetsStore;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** A number in inch-pound units. */
  readonly cell: Cell;
  /** Unit of the sheet's column, where its numbers have one. */
  readonly unit?: FieldUnit | undefined;
  readonly kind: 'text' | 'number';
  /** Above the field; `of` is said behind it to screen readers: "Tool price of Squeezer". */
  readonly label: string;
  readonly of?: string;
  readonly choices?: readonly string[];
  readonly autoFocus?: boolean;
}) {
  const id = useId();
  const shown = cellText(kind, typeof cell === 'number' ? inUnit(cell, unit?.unit) : cell);
  const typing = useDraft((text) => {
    if (text.trim() === shown) return undefined;
    const typed = readTypedCell(kind, text, unit);
    return 'wrong' in typed
      ? typed.wrong
      : store.change(t('Change {label}', { label }), [writeCell(sheet, row, column, typed.cell)]);
  });
  const { refused } = typing;
  return (
    <LabelledField id={id} label={label} wrong={refused}>
      <ValueField
        id={id}
        numeric={kind === 'number'}
        shown={shown}
        draft={typing}
        choices={choices}
        autoFocus={autoFocus}
        marks={{
          'aria-label': of ? t('{label} of {row}', { label, row: of }) : undefined,
          'aria-invalid': refused === undefined ? undefined : true,
          'aria-describedby': refused === undefined ? undefined : reasonId(id),
        }}
        onKeyDown={typing.onKeyDown}
      />
    </LabelledField>
  );
}
