/** What there is to say of the selected cell, found out again whenever another is selected or a cell changes. */
import type { RangeAddress } from './model';
import type { Unsubscribe, Workbook } from './port';

/**
 * @param look finds out about a selection; undefined where nothing is selected
 * @param show is told what was found, unless something else has been selected in the meantime
 */
export function followSelection<T>(
  workbook: Workbook,
  look: (range: RangeAddress | undefined) => Promise<T>,
  show: (found: T) => void,
): Unsubscribe {
  let latest = 0;
  const lookAt = async (range: RangeAddress | undefined): Promise<void> => {
    const turn = (latest += 1);
    const found = await look(range);
    if (turn === latest) show(found);
  };
  // Without a selection, or one that cannot be read, there is nothing to say.
  const again = (): void =>
    void workbook
      .selection()
      .then(lookAt)
      .catch(() => lookAt(undefined));
  const stops = [workbook.onSelection((range) => void lookAt(range)), workbook.onChange(again)];
  again();
  return () => {
    latest += 1;
    stops.forEach((stop) => stop());
  };
}
