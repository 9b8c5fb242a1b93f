export { InsertView as Body } from './insert-view';
