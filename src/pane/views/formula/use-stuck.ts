import { useLayoutEffect, type RefObject } from 'react';

/** Pixels that fields are left to be seen in. */
const LEAST = 150;

/**
 * Keeps `block` at the top of the scrolling `body`: all of it where the fields below still have room, and else its
 * last child alone, so that no field is hidden under it when it gets the focus.
 */
export function useStuck(body: RefObject<HTMLElement | null>, block: RefObject<HTMLElement | null>): void {
  useLayoutEffect(() => {
    const [outer, inner] = [body.current, block.current];
    if (!outer || !inner) return;
    const place = (): void => {
      const height = inner.offsetHeight;
      const last = inner.lastElementChild instanceof HTMLElement ? inner.lastElementChild.offsetHeight : 0;
      const kept = outer.clientHeight - height >= LEAST ? height : last;
      inner.style.top = `${kept - height}px`;
      outer.style.scrollPaddingTop = `${kept + 4}px`;
    };
    const observer = new ResizeObserver(place);
    observer.observe(outer);
    observer.observe(inner);
    return () => observer.disconnect();
  }, [body, block]);
}
