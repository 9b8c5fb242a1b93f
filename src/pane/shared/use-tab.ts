import { createContext, useContext, useEffect, useState } from 'react';
import { useStore } from './store';
import type { TabState, TabStore } from './tab-store';

/** False in a tab that another one hides. */
export const InView = createContext(true);

/** The store of a tab, made once and running as long as the tab is there, and its state. */
export function useTab<S extends TabState, T extends TabStore<S>>(make: () => T & TabStore<S>): readonly [T, S] {
  const [store] = useState(make);
  const inView = useContext(InView);
  useEffect(() => store.bringUp(inView), [store, inView]);
  useEffect(() => {
    store.start();
    return () => store.stop();
  }, [store]);
  return [store, useStore(store)];
}
