/** What will be added to a workbook that has nothing of the project, and the button that does it. */
import { Button } from '@fluentui/react-components';
import { useEffect, useRef, useState, type FormEvent, type ReactNode } from 'react';
import type { UnitSystem } from '../../../core/quantity';
import { PROJECT_SHEETS } from '../../../project';
import { mark, t, type Marked } from '../../locale';
import { refusal } from '../../shared/refusal';
import { useStore } from '../../shared/store';
import { LeftSheets } from './left-sheets';
import { foreseen, makeReady } from './make';
import type { Made, StartStore } from './start-store';
import { useStyles } from './styles';
import { WHAT } from './start-words';

const SYSTEMS: readonly { readonly units: UnitSystem; readonly label: Marked }[] = [
  { units: 'in-lb', label: mark('Inches and pounds') },
  { units: 'mm-kg', label: mark('Millimetres and kilograms') },
];

export function OfferPanel({
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
  const heading = useRef<HTMLHeadingElement>(null);
  const [units, setUnits] = useState<UnitSystem>('in-lb');
  const [examples, setExamples] = useState(true);
  const [making, setMaking] = useState(false);
  const [wrong, setWrong] = useState<string>();
  const [ahead, setAhead] = useState<Made>();

  useEffect(() => {
    if (asked) heading.current?.focus();
  }, [asked, said]);
  useEffect(() => {
    const look = (): void => void foreseen(store.pane).then(setAhead, () => setAhead(undefined));
    look();
    return store.pane.workbook.onChange(look);
  }, [store]);

  const make = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (making) return;
    setMaking(true);
    setWrong(undefined);
    try {
      await store.make(() => makeReady(store.pane, units, examples));
    } catch (error) {
      setWrong(refusal(error));
      setMaking(false);
    }
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
