export { PricesView as Body } from './prices-view';
