import { mark, t, type Marked } from '../locale';
import { Fetched, fetchedCode } from '../shared/fetched';
import type { View } from '../shared/view';
import { Body } from '../views/prices';

/** The view of a folder that exports `Body`, by a function that imports the folder when the view is first opened. */
function later(id: string, label: Marked, load: () => Promise<Pick<View, 'Body'>>): View {
  const code = fetchedCode(load);
  return {
    id,
    label,
    Body: ({ pane }) => (
      <Fetched
        code={code}
        waiting={t('Opening {view} …', { view: t(label) })}
        failed={t('The tab “{view}” could not be shown. Nothing in the workbook has changed.', { view: t(label) })}
      >
        {({ Body }) => <Body pane={pane} />}
      </Fetched>
    ),
  };
}

/**
 * The tabs, in the order in which they are shown. All but the first are fetched when the pane is idle, so
 * that it opens quickly and still has everything when the network is gone.
 */
export const VIEWS: readonly View[] = [
  { id: 'prices', label: mark('Prices'), Body },
  later('weights', mark('Weights'), () => import(/* webpackPrefetch: true */ '../views/weights')),
  later('balance', mark('Balance'), () => import(/* webpackPrefetch: true */ '../views/balance')),
  later('rivets', mark('Rivets'), () => import(/* webpackPrefetch: true */ '../views/rivets')),
  later('buying', mark('Buying'), () => import(/* webpackPrefetch: true */ '../views/buying')),
  later('insert', mark('Formula'), () => import(/* webpackPrefetch: true */ '../views/formula')),
];
