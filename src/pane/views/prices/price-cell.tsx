/** What a cell of the grid shows when it is not being typed in. */
import { Fragment, type ReactNode } from 'react';
import type { UnitSystem } from '../../../core/quantity';
import { t, writeNumber } from '../../locale';
import { fileText, fieldText } from './fields';
import type { GridColumnId } from './columns';
import { cellOf, type Places, type PriceLine } from './lines';
import { useGridStyles } from './styles';
import { perUse, unitPrice } from './unit-price';
import { currencyText, dateText, detailLines, perWords, priceText } from './price-words';

export interface CellContentProps {
  readonly column: GridColumnId;
  readonly line: PriceLine;
  readonly places: Places;
  readonly shown: ReadonlySet<GridColumnId>;
  /** "old: 14 months", where the quote is old. */
  readonly age: string | undefined;
  /** Decimals of unit prices. */
  readonly digits: number;
  /** System of the unit prices. */
  readonly units: UnitSystem;
}

export function CellContent({ column, line, places, shown, age, digits, units }: CellContentProps) {
  const styles = useGridStyles();
  switch (column) {
    case 'item': {
      const { goods } = detailLines(line, places, shown);
      return (
        <>
          {fileText('item', cellOf(line, places, 'item')) || t('(no name)')}
          {goods.length > 0 && <span className={styles.detail}>{goods.join(' · ')}</span>}
        </>
      );
    }
    case 'price': {
      const currency = currencyText(line, places);
      // A currency's code is shown beside the number; anything longer is a fault and is shown below it.
      const beside = shown.has('soldBy') && currency.length <= 3;
      return (
        <>
          {priceText(line, places)}
          {beside ? (
            <span className={styles.unit}>{currency}</span>
          ) : (
            <span className={styles.detail}>{breakable(shown.has('soldBy') ? currency : perWords(line, places))}</span>
          )}
        </>
      );
    }
    case 'unit': {
      const each = line.row && unitPrice(line.row, units);
      if (!line.row || each === undefined) return <span className={styles.detail}>–</span>;
      return (
        <>
          {writeNumber(each, digits)}
          <span className={styles.unit}>{perUse(line.row.measure, units)}</span>
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
      return <>{fieldText(column, cellOf(line, places, column))}</>;
  }
}

/** Under the row: from which quantity, who quoted it and when, and whether that is long ago. */
export function QuoteLine({ line, places, shown, age }: Pick<CellContentProps, 'line' | 'places' | 'shown' | 'age'>) {
  const styles = useGridStyles();
  const { quote } = detailLines(line, places, shown);
  const word = shown.has('quotedOn') ? undefined : age;
  if (quote.length === 0 && !word) return null;
  return (
    <div className={styles.quote}>
      {quote.map((part, index) => (
        <span key={part} className={styles.together}>
          {index > 0 && '· '}
          {part}{' '}
        </span>
      ))}
      {word && <span className={styles.word}>{word}</span>}
    </div>
  );
}

/** A narrow column may end its line behind a slash, where a browser ends none by itself. */
const breakable = (text: string): ReactNode =>
  text.split('/').map((part, index) => (
    <Fragment key={index}>
      {index > 0 && (
        <>
          /<wbr />
        </>
      )}
      {part}
    </Fragment>
  ));
