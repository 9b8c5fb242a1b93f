export { loadLocale, localeOf, setLocale, textOrder, type Locale } from './locale';
export { mark, rich, t, translate, type Marked, type Values } from './messages';
export { cellNumber, decimalSign, readNumber, writeNumber, type FieldUnit, type Read } from './numbers';
