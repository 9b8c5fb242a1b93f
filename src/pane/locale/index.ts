export { setLocale, localeOf, type Locale } from './locale';
export { mark, rich, t, type Values } from './messages';
export { cellNumber, readNumber, writeNumber, type FieldUnit, type Read } from './numbers';
