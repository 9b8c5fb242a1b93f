import type { View } from '../view';
import { RivetsView } from './rivets-view';

export const rivetsView: View = { id: 'rivets', label: 'Rivets', Body: RivetsView };
