import { localeOf } from './locale';

const known = new Map<string, Intl.Collator>();

/** The order of texts in the pane's language: numbers in them by their value, capitals and accents aside. */
export function textOrder(): Intl.Collator {
  const { language } = localeOf();
  let order = known.get(language);
  if (!order) known.set(language, (order = new Intl.Collator(language, { numeric: true, sensitivity: 'base' })));
  return order;
}
