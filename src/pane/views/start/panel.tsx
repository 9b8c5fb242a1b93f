import { useStore } from '../../shared/store';
import { MadePanel } from './made-panel';
import { OfferPanel } from './offer-panel';
import type { StartStore } from './start-store';

export function StartPanel({ store }: { readonly store: StartStore }) {
  const { mode, made } = useStore(store);
  return mode === 'made' && made ? <MadePanel store={store} made={made} /> : <OfferPanel store={store} />;
}
