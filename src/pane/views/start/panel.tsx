import { OwnLists } from '../../match';
import { useStore } from '../../shared/store';
import { MadePanel } from './made-panel';
import { OfferPanel } from './offer-panel';
import type { StartStore } from './start-store';

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
