import type { View } from '../view';
import { BalanceView } from './balance-view';

export const balanceView: View = { id: 'balance', label: 'Balance', Body: BalanceView };
