import { balanceView } from './balance';
import { pricesView } from './prices';
import { rivetsView } from './rivets';
import type { View } from './view';
import { weightsView } from './weights';

/** The tabs, in the order in which they are shown. */
export const VIEWS: readonly View[] = [pricesView, weightsView, balanceView, rivetsView];
