/** The first lines of a long list, and a button for more of them: thousands at once would hold the page still. */
import { Button } from '@fluentui/react-components';
import { useRef, useState, type ReactNode } from 'react';
import { t } from '../locale';

export function LongList<T>({
  items,
  count = items.length,
  step = 100,
  children,
}: {
  readonly items: readonly T[];
  /** Of all, where `items` are the first of more. */
  readonly count?: number;
  /** How many are shown first, and more at each press. */
  readonly step?: number;
  readonly children: (shown: readonly T[]) => ReactNode;
}) {
  const [length, setLength] = useState(step);
  const list = useRef<HTMLDivElement>(null);
  const more = Math.min(step, items.length - length);
  const left = count - Math.min(length, items.length);
  return (
    <div ref={list} tabIndex={-1} style={{ outline: 'none' }}>
      {children(items.slice(0, length))}
      {more > 0 ? (
        <Button
          size="small"
          onClick={() => {
            setLength(length + step);
            // The button goes with the last lines: the keyboard stays at the list.
            if (length + step >= items.length) list.current?.focus();
          }}
        >
          {t('Show {more, number} of {left, number} more', { more, left })}
        </Button>
      ) : (
        left > 0 && t('and {left, number} more', { left })
      )}
    </div>
  );
}
