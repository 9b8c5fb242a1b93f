/** What a cell of the grid shows when it is not being typed in. */
import { cellText } from './fields';
import type { GridColumnId } from './columns';
import { cellOf, type Places, type PriceLine } from './lines';
import { useGridStyles } from './styles';
import { unitPrice } from './unit-price';
import { currencyText, dateText, detailLines, perWords, priceText } from './words';

export interface CellContentProps {
  readonly column: GridColumnId;
  readonly line: PriceLine;
  readonly places: Places;
  readonly shown: ReadonlySet<GridColumnId>;
  /** "old: 14 months", where the quote is old. */
  readonly age: string | undefined;
  /** Decimals of unit prices. */
  readonly digits: number;
}

export function CellContent({ column, line, places, shown, age, digits }: CellContentProps) {
  const styles = useGridStyles();
  switch (column) {
    case 'item': {
      const [goods, quote] = detailLines(line, places, shown);
      return (
        <>
          {cellText('item', cellOf(line, places, 'item')) || '(no name)'}
          {goods.length > 0 && <span className={styles.detail}>{goods.join(' · ')}</span>}
          {(quote.length > 0 || age) && (
            <span className={styles.detail}>
              {quote.join(' · ')} {age && !shown.has('quotedOn') && <span className={styles.word}>{age}</span>}
            </span>
          )}
        </>
      );
    }
    case 'price':
      return (
        <>
          {priceText(line, places)}
          {shown.has('soldBy') ? <span className={styles.unit}>{currencyText(line, places)}</span> : <span className={styles.detail}>{perWords(line, places)}</span>}
        </>
      );
    case 'unit': {
      const unit = line.row && unitPrice(line.row);
      if (unit?.each === undefined) return <span className={styles.detail}>–</span>;
      return (
        <>
          {unit.each.toFixed(digits)}
          <span className={styles.unit}>{unit.per}</span>
        </>
      );
    }
    case 'quotedOn':
      return (
        <>
          {dateText(line, places)} {age && <span className={styles.word}>{age}</span>}
        </>
      );
    case 'open':
      return null;
    default:
      return <>{cellText(column, cellOf(line, places, column))}</>;
  }
}
