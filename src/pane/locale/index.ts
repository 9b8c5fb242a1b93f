export { setLocale, localeOf, type Locale } from './locale';
export { loadLocale } from './load';
export { mark, rich, t, translate, type Marked, type Values } from './messages';
export { textOrder } from './locale';
export { cellNumber, decimalSign, readNumber, writeNumber, type FieldUnit, type Read } from './numbers';
