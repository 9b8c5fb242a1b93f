/** What the list is computed from, and the sheets that hold that. */
import { Button } from '@fluentui/react-components';
import { HARDWARE, type ShoppingTerms } from '../../../core/shopping';
import { BUYING_SHEET, PURCHASES, STOCK } from '../../../project';
import { cellNumber, mark, t, type Marked } from '../../locale';
import { moneyText } from '../../shared/quantities';
import type { BuyingStore, SheetToAdd } from './buying-store';
import type { BuyingSheets } from './buying-sheets';
import { useStyles } from './styles';
import { trimmed } from './buying-words';

const WHAT: readonly (readonly [SheetToAdd, Marked])[] = [
  [BUYING_SHEET, mark('your currency, rates with their dates, spare, freight and cut charges')],
  [PURCHASES.sheet, mark('what you have bought: it is taken off the list and counted as spent')],
  [STOCK.sheet, mark('sheets, bars and leftovers on the shelf; a cutting plan uses them first')],
];

export function TermsSection({ store, sheets }: { readonly store: BuyingStore; readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const { terms, hasTerms } = sheets;
  const there: Readonly<Record<string, boolean>> = {
    [BUYING_SHEET]: hasTerms,
    [PURCHASES.sheet]: sheets.purchases !== undefined,
    [STOCK.sheet]: sheets.stock !== undefined,
  };
  return (
    <section className={styles.section} aria-labelledby="buying-terms">
      <h2 id="buying-terms" className={styles.heading}>
        {t('What it rests on')}
      </h2>
      <p className={styles.text}>
        {[spareWords(terms, hasTerms), ...rateWords(terms), ...chargeWords(terms)].join(' ')}
      </p>
      <ul className={styles.sheets}>
        {WHAT.map(([name, what]) => (
          <li key={name}>
            {there[name] ? (
              <Button
                size="small"
                onClick={() => void store.select({ sheet: name, row: 0, column: 0, rows: 1, columns: 1 })}
              >
                {t('Go to {sheet}', { sheet: name })}
              </Button>
            ) : (
              <Button size="small" onClick={() => void store.addSheet(name)}>
                {t('Add the sheet {sheet}', { sheet: name })}
              </Button>
            )}{' '}
            <span>{t(what)}</span>
          </li>
        ))}
      </ul>
      <p className={styles.quiet}>
        {t(
          'The leftover of a sheet you bought is not a second purchase. On the sheet Stock, mark only what was not bought for this project.',
        )}
      </p>
    </section>
  );
}

function spareWords({ spares }: ShoppingTerms, own: boolean): string {
  const shares = HARDWARE.map((kind) => `${kind} ${trimmed(100 * spares[kind], 1)} %`).join(', ');
  return own
    ? t('Spare on top of the need: {shares}.', { shares })
    : t('Spare on top of the need (common practice, no source): {shares}.', { shares });
}

const rateWords = ({ rates, currency: own }: ShoppingTerms): string[] =>
  rates.map(({ currency, rate, date }) => {
    const values = { currency, rate: cellNumber(rate), own };
    return date
      ? t('1 {currency} = {rate} {own}, {date}.', { ...values, date })
      : t('1 {currency} = {rate} {own}, no date.', values);
  });

const chargeWords = ({ suppliers, currency }: ShoppingTerms): string[] =>
  suppliers
    .filter(({ freight, cuts }) => freight > 0 || cuts > 0)
    .map(({ supplier, freight, cutCharge, cuts }) => {
      const values = { supplier, freight: moneyText(freight, currency), cuts, charge: moneyText(cutCharge, currency) };
      return cuts > 0
        ? t('{supplier}: freight {freight}, {cuts, plural, one {# cut} other {# cuts}} at {charge}.', values)
        : t('{supplier}: freight {freight}.', values);
    });
