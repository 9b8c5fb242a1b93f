import { mark } from '../../locale';
import type { View } from '../../shared/view';
import { PricesView } from './prices-view';

export const pricesView: View = { id: 'prices', label: mark('Prices'), Body: PricesView };
