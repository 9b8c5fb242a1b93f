export {
  loadLocale,
  localeOf,
  mark,
  rich,
  setLocale,
  t,
  textOrder,
  translate,
  type Locale,
  type Marked,
  type Values,
} from './locale';
export { SYSTEMS, cellNumber, decimalSign, readNumber, writeNumber, type FieldUnit, type Read } from './numbers';
