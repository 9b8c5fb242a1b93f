/** What stands in a view's place where the workbook has nothing of the project: what will be added to it, and then what was. */
import { Button, mergeClasses } from '@fluentui/react-components';
import { useEffect, useState, type FormEvent, type ReactNode } from 'react';
import type { UnitSystem } from '../../../core/quantity';
import { PROJECT_SHEETS, type ProjectSheetName } from '../../../project';
import { mark, SYSTEMS, t, type Marked } from '../../locale';
import { OwnLists } from '../../match';
import { useFocus } from '../../shared/element';
import { useTried } from '../../shared/refusal';
import { useStore } from '../../shared/store';
import { undoKeys } from '../../shared/tab-store';
import { foreseen, makeReady } from './make';
import type { Made, StartStore } from './start-store';
import { useStyles } from './styles';

export function StartPanel({ store }: { readonly store: StartStore }) {
  const { mode, made } = useStore(store);
  if (mode === 'made' && made) return <MadePanel store={store} made={made} />;
  return (
    <OwnLists pane={store.pane}>
      {(offer, lists) => (
        <OfferPanel store={store} lists={lists.length > 0 && offer} below={lists.length === 0 && offer} />
      )}
    </OwnLists>
  );
}

/** What was added, where to type, and the way back. */
function MadePanel({ store, made }: { readonly store: StartStore; readonly made: Made }) {
  const styles = useStyles();
  const { said } = useStore(store);
  const heading = useFocus<HTMLHeadingElement>(true);
  const [wrong, tried] = useTried();
  const { added } = made;
  const examples = added.reduce((sum, { exampleRows }) => sum + exampleRows, 0);

  const undo = (): Promise<void> => tried(() => store.undo());

  return (
    <section
      className={styles.panel}
      aria-labelledby="start-heading"
      onKeyDown={undoKeys({ undo, redo: async () => undefined })}
    >
      <h2 id="start-heading" ref={heading} tabIndex={-1} className={styles.heading}>
        {t('This workbook is ready')}
      </h2>
      <p className={styles.text}>
        {t(
          '{sheets, plural, one {# sheet was added} other {# sheets were added}}{rows, plural, =0 {} one {, with # invented example row} other {, with # invented example rows}}. Type in the shaded cells and in the price list; the other cells compute.',
          {
            sheets: added.length,
            rows: examples,
          },
        )}
      </p>
      <ul className={styles.sheets}>
        {added.map(({ name, sheet, exampleRows, typed, first }) => (
          <li key={name} className={mergeClasses(styles.sheet, styles.added)}>
            <span className={styles.name}>{sheet}</span>
            <span className={styles.what}>{t(ADDED[name], { rows: exampleRows, cells: typed })}</span>
            <Button size="small" onClick={() => void tried(() => store.pane.workbook.select(first))}>
              {t('Go to {sheet}', { sheet })}
            </Button>
          </li>
        ))}
      </ul>
      <LeftSheets made={made} />
      {examples > 0 && added.some(({ name }) => name === 'Parts') && (
        <p className={styles.text}>
          {t(
            'Try it: change a thickness on the sheet Parts, then look at the sheet Budget and the tab Weights. Delete the example rows when you have seen enough.',
          )}
        </p>
      )}
      <p className={styles.quiet}>
        {t(
          'An estimate is not a weighing. Loading limits come from the aircraft’s own documents, structural joints from the designer’s drawings.',
        )}
      </p>
      <div className={styles.buttons}>
        <Button appearance="primary" onClick={() => store.stepAside()}>
          {t('Close')}
        </Button>
        <Button onClick={() => void undo()}>{t('Undo')}</Button>
      </div>
      <p role="status" className={styles.text}>
        {said}
      </p>
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
    </section>
  );
}

/** What will be added, and the button that does it. */
function OfferPanel({
  store,
  lists,
  below,
}: {
  readonly store: StartStore;
  /** What is offered where the workbook has lists of its own, and what is offered after all else. */
  readonly lists: ReactNode;
  readonly below: ReactNode;
}) {
  const styles = useStyles();
  const { said, asked } = useStore(store);
  const heading = useFocus<HTMLHeadingElement>(asked, said);
  const [units, setUnits] = useState<UnitSystem>('in-lb');
  const [examples, setExamples] = useState(true);
  const [making, setMaking] = useState(false);
  const [wrong, tried] = useTried();
  const [ahead, setAhead] = useState<Made>();

  useEffect(() => {
    const look = (): void => void foreseen(store.pane).then(setAhead, () => setAhead(undefined));
    look();
    return store.pane.workbook.onChange(look);
  }, [store]);

  const make = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (making) return;
    setMaking(true);
    await tried(() => store.make(() => makeReady(store.pane, units, examples)));
    setMaking(false);
  };

  return (
    <form className={styles.panel} aria-labelledby="start-heading" onSubmit={(event) => void make(event)}>
      {lists}
      <h2 id="start-heading" ref={heading} tabIndex={-1} className={styles.heading}>
        {t('Make this workbook ready')}
      </h2>
      <p role="status" className={styles.text}>
        {said}
      </p>
      <p className={styles.text}>
        {t(
          'Everything is kept on sheets of this workbook, where you can read and change it without this pane, too. These are added:',
        )}
      </p>
      <ul className={styles.sheets}>
        {PROJECT_SHEETS.map((name) => (
          <li key={name} className={styles.sheet}>
            <span className={styles.name}>{name}</span>
            <span className={styles.what}>{t(WHAT[name])}</span>
          </li>
        ))}
      </ul>
      {ahead && <LeftSheets made={ahead} ahead />}
      <fieldset className={styles.choices}>
        <legend className={styles.legend}>{t('Units')}</legend>
        {SYSTEMS.map(({ units: system, label }) => (
          <label key={system} className={styles.choice}>
            <input type="radio" name="start-units" checked={units === system} onChange={() => setUnits(system)} />
            {t(label)}
          </label>
        ))}
      </fieldset>
      <label className={styles.choice}>
        <input
          type="checkbox"
          checked={examples}
          aria-describedby="start-examples"
          onChange={({ target }) => setExamples(target.checked)}
        />
        {t('With example rows')}
      </label>
      <p id="start-examples" className={styles.hint}>
        {t(
          'A rib, a spar cap and a skin of an invented airplane, with their rivets. They compute at once; delete them when you have seen how it works.',
        )}
      </p>
      <div className={styles.buttons}>
        <Button type="submit" appearance="primary" disabledFocusable={making}>
          {making ? t('Adding the sheets …') : t('Make this workbook ready')}
        </Button>
        <Button appearance="subtle" onClick={() => store.later()}>
          {t('Look around first')}
        </Button>
      </div>
      <div role="alert">
        {wrong !== undefined && <p className={styles.wrong}>{t('Nothing was added. {why}', { why: wrong })}</p>}
      </div>
      <p className={styles.quiet}>{t('Nothing in the workbook is overwritten, and one undo takes it all back.')}</p>
      {below}
    </form>
  );
}

/** Sheets that hold something else, and what becomes of them: nothing. */
function LeftSheets({ made: { added, left }, ahead = false }: { readonly made: Made; readonly ahead?: boolean }) {
  const styles = useStyles();
  const prices = added.find(({ name }) => name === 'Prices');
  return left.map((sheet) => (
    <p key={sheet} className={styles.text}>
      {prices && sheet.toLowerCase() === prices.name.toLowerCase()
        ? ahead
          ? t('The sheet {sheet} holds something else and stays as it is. The price list goes on a sheet {other}.', {
              sheet,
              other: prices.sheet,
            })
          : t('The sheet {sheet} holds something else and was left as it is; the price list is on the sheet {other}.', {
              sheet,
              other: prices.sheet,
            })
        : ahead
          ? t(
              'The sheet {sheet} holds something else and stays as it is. Rename it first if you want the sheet above.',
              { sheet },
            )
          : t(
              'The sheet {sheet} holds something else and was left as it is. Rename it, then the tab that needs the sheet can add it.',
              { sheet },
            )}
    </p>
  ));
}

/** What each sheet is for. */
const WHAT: Readonly<Record<ProjectSheetName, Marked>> = {
  Prices: mark('what you buy, how it is sold and what it costs'),
  Parts: mark('one row for each part: size, material and arm give its weight, moment and cost'),
  Joints: mark('one row for each riveted joint: which rivet, how many, what they weigh and cost'),
  Rivets: mark('your own rivets and their figures; the joints use these first'),
  Hardware: mark('bolts, nuts, hinges: pieces, weight of one and where it is from'),
  Budget: mark('what each component may weigh, and beside it weight, arm, moment, cost and margin'),
};

/** What was put on each, and where to type. */
const ADDED: Readonly<Record<ProjectSheetName, Marked>> = {
  Prices: mark(
    '{rows, plural, =0 {The list is a table, still empty.} one {A table with # example row.} other {A table with # example rows.}} Type in {cells}, or in the tab Prices.',
  ),
  Parts: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Joints: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Rivets: mark(
    '{rows, plural, =0 {A table, still empty.} one {A table with # example row.} other {A table with # example rows.}} Type in {cells}.',
  ),
  Hardware: mark(
    '{rows, plural, =0 {Formulas wait in every row.} one {# example row; formulas wait in every row.} other {# example rows; formulas wait in every row.}} Type in {cells}.',
  ),
  Budget: mark(
    '{rows, plural, =0 {The sums beside the budget come from the parts.} one {# example row; the sums beside it come from the parts.} other {# example rows; the sums beside them come from the parts.}} Type in {cells}.',
  ),
};
