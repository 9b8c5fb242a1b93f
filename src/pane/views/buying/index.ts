export { BuyingView as Body } from './buying-view';
