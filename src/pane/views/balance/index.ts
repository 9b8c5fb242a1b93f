export { BalanceView as Body } from './balance-view';
