/** What the list rests on, and the sheets in which it stands. */
import { Button } from '@fluentui/react-components';
import { formatMoney } from '../../core/price';
import { HARDWARE } from '../../core/shopping';
import { BUYING_SHEET, PURCHASES, STOCK } from '../../workbook';
import type { BuyingStore, SheetToAdd } from './buying-store';
import type { BuyingSheets } from './sheets';
import { useStyles } from './styles';

const WHAT: readonly (readonly [SheetToAdd, string])[] = [
  [BUYING_SHEET, 'your currency, rates with their dates, spares, freight and cut charges'],
  [PURCHASES.sheet, 'what you have bought: it is taken off the list and counted as spent'],
  [STOCK.sheet, 'sheets, bars and leftovers on the shelf, spent first by a cutting plan'],
];

export function TermsSection({ store, sheets }: { readonly store: BuyingStore; readonly sheets: BuyingSheets }) {
  const styles = useStyles();
  const { terms, hasTerms } = sheets;
  const there: Readonly<Record<string, boolean>> = { [BUYING_SHEET]: hasTerms, [PURCHASES.sheet]: sheets.purchases !== undefined, [STOCK.sheet]: sheets.stock !== undefined };
  return (
    <section className={styles.section} aria-labelledby="buying-terms">
      <h2 id="buying-terms" className={styles.heading}>
        What it rests on
      </h2>
      <p className={styles.text}>
        Spares beyond the need{hasTerms ? '' : ' (common practice, no source)'}: {HARDWARE.map((kind) => `${kind} ${Number((100 * terms.spares[kind]).toFixed(1))} %`).join(', ')}.
        {terms.rates.map(({ currency, rate, date }) => ` 1 ${currency} = ${rate} ${terms.currency}${date ? `, ${date}` : ', no date'}.`).join('')}
        {terms.suppliers.filter(({ freight, cuts }) => freight > 0 || cuts > 0).map(({ supplier, freight, cutCharge, cuts }) => ` ${supplier}: freight ${formatMoney(freight, terms.currency)}${cuts > 0 ? `, ${cuts} cuts at ${formatMoney(cutCharge, terms.currency)}` : ''}.`).join('')}
      </p>
      <ul className={styles.sheets}>
        {WHAT.map(([name, what]) => (
          <li key={name}>
            {there[name] ? (
              <Button size="small" onClick={() => void store.select({ sheet: name, row: 0, column: 0, rows: 1, columns: 1 })}>
                Go to {name}
              </Button>
            ) : (
              <Button size="small" onClick={() => void store.addSheet(name)}>
                Add the sheet {name}
              </Button>
            )}{' '}
            <span>{what}</span>
          </li>
        ))}
      </ul>
      <p className={styles.quiet}>A bought sheet’s leftover is no second purchase: on the sheet Stock only what was not bought for this project is marked to take off the list.</p>
    </section>
  );
}
