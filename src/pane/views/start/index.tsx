/** What a workbook is met with that has nothing of the project yet: the offer to make it ready, in a view's place or in a line above it. */
import { Button } from '@fluentui/react-components';
import { useEffect, useRef, useState } from 'react';
import { t } from '../../locale';
import { Fetched, fetchedCode } from '../../shared/fetched';
import { useStore } from '../../shared/store';
import type { PaneContext } from '../../shared/view';
import { StartStore } from './start-store';
import { useStyles } from './styles';

export { AddSheet } from './add-sheet';

export function useStart(pane: PaneContext): StartStore {
  const [store] = useState(() => new StartStore(pane));
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  return store;
}

/** True where the start stands in the view's place. */
export function useInPlace(store: StartStore): boolean {
  const { mode } = useStore(store);
  return mode === 'offer' || mode === 'made';
}

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
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asked) button.current?.focus();
  }, [asked]);
  return (
    <section className={styles.bar} aria-label={t('Getting started')}>
      <span className={styles.grow}>{t('This workbook has no project sheets yet.')}</span>
      <Button ref={button} size="small" onClick={() => store.offer()}>
        {t('Make it ready …')}
      </Button>
    </section>
  );
}
