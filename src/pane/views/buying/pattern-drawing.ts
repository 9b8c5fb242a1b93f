/** A pattern drawn to scale with its measures in the workbook's units and its words in the pane's language. */
import type { Quantities } from '../../../core/quantity';
import { patternSvg, type CuttingPlan } from '../../../core/stock';
import { t } from '../../locale';
import { lengthWords, sizeText } from './buying-words';

type Pattern = CuttingPlan['patterns'][number];

/** @param id tells drawings on one page apart */
export function patternDrawing(pattern: Pattern, id: string, say: Quantities): string {
  const { stock, length, times } = pattern;
  const size = sizeText(length, 'strips' in pattern ? pattern.width : undefined, say);
  return patternSvg(pattern, {
    id,
    title: t('{stock}, {size}, {times, plural, one {once} other {# times}}', { stock, size, times }),
    measure: (inches) => lengthWords(inches, say),
  });
}
