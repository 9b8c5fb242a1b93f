/** After a plan has been cut: its leftovers put on the sheet Stock, asked once. */
import { Button } from '@fluentui/react-components';
import { useEffect, useRef, useState } from 'react';
import { t } from '../../locale';
import type { BuyingStore } from './buying-store';
import type { CuttingGroup } from './cutting-needs';
import type { MadePlan } from './made-plans';
import type { PlanStore } from './plan-store';
import { shelfCounts, spent } from './shelf';
import { useStyles } from './styles';

interface Props {
  readonly store: BuyingStore;
  readonly plans: PlanStore;
  readonly made: MadePlan;
  readonly group: CuttingGroup;
}

export function ShelfOffer({ store, plans, made, group }: Props) {
  const styles = useStyles();
  const [asking, setAsking] = useState(false);
  const no = useRef<HTMLButtonElement>(null);
  const offer = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) no.current?.focus();
  }, [asking]);
  const counts = shelfCounts(made);
  if (counts.put + counts.taken === 0) return null;
  const letGo = (): void => {
    setAsking(false);
    // The button is back only after the question is gone.
    setTimeout(() => offer.current?.focus());
  };
  if (!asking) {
    return (
      <div className={styles.buttons}>
        <Button ref={offer} size="small" onClick={() => setAsking(true)}>
          {t('Put the leftovers on the shelf')}
        </Button>
      </div>
    );
  }
  return (
    <div
      className={styles.caution}
      role="group"
      aria-label={t('Put the leftovers on the shelf')}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        letGo();
      }}
    >
      <p className={styles.text}>
        {t(
          'Has this plan been cut? Then {put, plural, =0 {no leftover is} one {its # leftover is} other {its # leftovers are}} written to the sheet Stock and {taken, plural, =0 {nothing is} one {the # piece that it uses is} other {the # pieces that it uses are}} taken off it. Undo takes it all back.',
          counts,
        )}
      </p>
      {spent(made).some(({ piece }) => piece.takesOff) && (
        <p className={styles.text}>
          {t(
            'A piece that is cut no longer shortens the shopping list. Enter it on the sheet Purchases, paid 0, or the list asks for it again.',
          )}
        </p>
      )}
      <div className={styles.buttons}>
        <Button
          size="small"
          appearance="primary"
          onClick={() => void store.shelve(made, group, () => plans.markCut(group.name))}
        >
          {t('It is cut: change the sheet Stock')}
        </Button>
        <Button ref={no} size="small" onClick={letGo}>
          {t('Not yet')}
        </Button>
      </div>
    </div>
  );
}

/** In the offer's place once it was taken; the focus goes here, where it was. */
export function ShelfDone() {
  const styles = useStyles();
  const text = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (document.activeElement === document.body || document.activeElement === null) text.current?.focus();
  }, []);
  return (
    <p ref={text} tabIndex={-1} className={styles.caution}>
      {t('This plan has been cut: its leftovers are on the sheet Stock. Plan again for what is cut from here on.')}
    </p>
  );
}
