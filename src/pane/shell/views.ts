import { later } from './later';
import { mark } from '../locale';
import { pricesView } from '../views/prices';
import type { View } from '../shared/view';

/**
 * The tabs, in the order in which they are shown. All but the first are fetched when the pane is idle, so
 * that it opens quickly and still has everything when the network is gone.
 */
export const VIEWS: readonly View[] = [
  pricesView,
  later('weights', mark('Weights'), () => import(/* webpackPrefetch: true */ '../views/weights')),
  later('balance', mark('Balance'), () => import(/* webpackPrefetch: true */ '../views/balance')),
  later('rivets', mark('Rivets'), () => import(/* webpackPrefetch: true */ '../views/rivets')),
  later('buying', mark('Buying'), () => import(/* webpackPrefetch: true */ '../views/buying')),
  later('insert', mark('Formula'), () => import(/* webpackPrefetch: true */ '../views/formula')),
];
