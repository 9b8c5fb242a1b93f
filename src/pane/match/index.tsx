/** Around what a view says where there is no parts list: the offer to use lists of one's own, and the panel in which their columns are matched. */
import { Button } from '@fluentui/react-components';
import { useEffect, useRef, type ReactNode } from 'react';
import { lackingIn, type Guess } from '../../project';
import { t } from '../locale';
import { CsvFileInput } from '../shared/csv-import';
import { useStore } from '../shared/store';
import { useTab } from '../shared/tab-store';
import type { PaneContext } from '../shared/view';
import { MatchPanel } from './match-panel';
import { MatchStore } from './match-store';
import { useStyles } from './styles';

export { bySizeText } from './match-panel';

export function OwnLists({
  pane,
  children,
}: {
  readonly pane: PaneContext;
  /** What stands around the offer; it makes room for the panel. */
  children(offer: ReactNode, lists: readonly Guess[]): ReactNode;
}) {
  const [store, { status, draft, wrong, lists }] = useTab(() => new MatchStore(pane));
  if (draft) return <MatchPanel store={store} draft={draft} wrong={wrong} />;
  return children(status === 'reading' ? null : <ListsOffer store={store} />, lists);
}

/** The offer to use lists of one's own as they are, and to bring one in from a file. */
function ListsOffer({ store }: { readonly store: MatchStore }) {
  const styles = useStyles();
  const { lists, matched, wrong, asked } = useStore(store);
  const file = useRef<HTMLInputElement>(null);
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asked) first.current?.focus();
  }, [asked]);
  return (
    <section className={styles.offer} aria-label={t('Your own list')}>
      <h2 className={styles.heading}>
        {lists.length > 0
          ? t('Use your own list as it is')
          : matched.length > 0
            ? t('Your own lists')
            : t('Do you have a list already?')}
      </h2>
      {matched.map(({ sheet }, index) => (
        <div key={sheet} className={styles.list}>
          <p className={styles.text}>{t('{sheet} is read as the sheet Matches says.', { sheet })}</p>
          <Button ref={index === 0 ? first : undefined} onClick={() => void store.open(sheet)}>
            {t('Change the columns of {sheet}', { sheet })}
          </Button>
        </div>
      ))}
      {lists.length + matched.length === 0 && (
        <p className={styles.text}>
          {t(
            'Paste it on a sheet, or bring in a CSV file. Its headers may be your own: you say what each column means.',
          )}
        </p>
      )}
      {lists.map((guess, index) => (
        <div key={guess.match.sheet} className={styles.list}>
          <p className={styles.text}>{sentence(guess)}</p>
          <Button
            ref={index === 0 && matched.length === 0 ? first : undefined}
            appearance="primary"
            onClick={() => void store.open(guess.match.sheet)}
          >
            {t('Match the columns of {sheet}', { sheet: guess.match.sheet })}
          </Button>
        </div>
      ))}
      <Button onClick={() => file.current?.click()}>{t('Bring in a CSV file')}</Button>
      <CsvFileInput
        input={file}
        label={t('CSV file of parts')}
        onFile={(name, bytes) => void store.bringIn(name, bytes)}
      />
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
    </section>
  );
}

/** What a sheet has of a list of parts, and which columns it lacks. */
function sentence(guess: Guess): string {
  const { match } = guess;
  const lacks = lackingIn(guess);
  const names = {
    sheet: match.sheet,
    has: match.columns.map(({ header }) => header).join(', '),
    lacks: lacks.join(', '),
  };
  return lacks.length > 0
    ? t('The sheet {sheet} has {has}, but no column for {lacks}.', names)
    : t('The sheet {sheet} has {has}.', names);
}
