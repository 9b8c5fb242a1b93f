/** Around what a view says where there is no parts list: the offer to use lists of one's own, and the panel in which their columns are matched. */
import { type ReactNode } from 'react';
import type { Guess } from '../../project';
import { useTab } from '../shared/use-tab';
import type { PaneContext } from '../shared/view';
import { ListsOffer } from './lists-offer';
import { MatchPanel } from './match-panel';
import { MatchStore } from './match-store';

export { bySizeText } from './preview';

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
