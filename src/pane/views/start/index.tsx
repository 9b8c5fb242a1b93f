/** What a workbook is met with that has nothing of the project yet: the offer to make it ready, in a view's place or in a line above it. */
import { Button } from '@fluentui/react-components';
import { useEffect, useState } from 'react';
import type { ProjectSheetName } from '../../../project';
import { cellName, type RangeAddress } from '../../../sheet';
import { t } from '../../locale';
import { useFocus } from '../../shared/element';
import { Fetched, fetchedCode } from '../../shared/fetched';
import { useTried } from '../../shared/refusal';
import { useStore } from '../../shared/store';
import type { PaneContext } from '../../shared/view';
import { StartStore } from './start-store';
import { useStyles } from './styles';

export function useStart(pane: PaneContext): StartStore {
  const [store] = useState(() => new StartStore(pane));
  useEffect(() => store.start(), [store]);
  return store;
}

/** True where the start stands in the view's place. */
export const useInPlace = (store: StartStore): boolean => ['offer', 'made'].includes(useStore(store).mode);

/** Only a new workbook needs the panel. */
const PANEL = fetchedCode(() => import(/* webpackPrefetch: true */ './panel'));

export function Start({ store }: { readonly store: StartStore }) {
  const inPlace = useInPlace(store);
  const { mode } = useStore(store);
  if (inPlace) {
    return (
      <Fetched code={PANEL} failed={t('How to begin could not be shown. Nothing in the workbook has changed.')}>
        {({ StartPanel }) => <StartPanel store={store} />}
      </Fetched>
    );
  }
  return mode === 'bar' ? <Bar store={store} /> : null;
}

function Bar({ store }: { readonly store: StartStore }) {
  const styles = useStyles();
  const { asked } = useStore(store);
  const button = useFocus<HTMLButtonElement>(asked);
  return (
    <section className={styles.bar} aria-label={t('Getting started')}>
      <span className={styles.grow}>{t('This workbook has no project sheets yet.')}</span>
      <Button ref={button} size="small" onClick={() => store.offer()}>
        {t('Make it ready …')}
      </Button>
    </section>
  );
}

/** In a view's empty state: adds the one sheet that the view needs, or leads to it where it is there and has no row yet. */
export function AddSheet({ pane, name }: { readonly pane: PaneContext; readonly name: ProjectSheetName }) {
  const styles = useStyles();
  const [first, setFirst] = useState<RangeAddress>();
  const [wrong, tried] = useTried();
  const { workbook } = pane;

  useEffect(() => {
    const look = (): void =>
      void import('./make').then(({ firstRow }) => firstRow(workbook, name)).then(setFirst, () => setFirst(undefined));
    look();
    return workbook.onChange(look);
  }, [workbook, name]);

  return (
    <>
      {first ? (
        <p role="status" className={styles.text}>
          {t('The sheet {sheet} is ready and empty. Type the first row from {cell} on.', {
            sheet: name,
            cell: cellName(first.row, first.column),
          })}
        </p>
      ) : (
        <p className={styles.text}>
          {t('The sheet has labels and a formula in every row. A price list is added if there is none.')}
        </p>
      )}
      {/* One button, so that the focus stays where it was. */}
      <div className={styles.buttons}>
        <Button
          appearance="primary"
          onClick={() =>
            void tried(async () =>
              first ? workbook.select(first) : (await import('./make')).addProjectSheet(pane, name),
            )
          }
        >
          {first ? t('Go to {sheet}', { sheet: name }) : t('Add the sheet {sheet}', { sheet: name })}
        </Button>
      </div>
      <div role="alert">{wrong !== undefined && <p className={styles.wrong}>{wrong}</p>}</div>
    </>
  );
}
