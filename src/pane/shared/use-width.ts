import { useLayoutEffect, useState, type RefObject } from 'react';

/** An element's inner width in pixels, kept up to date; one that is hidden keeps its last width. */
export function useWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const observer = new ResizeObserver(() => setWidth((last) => watched.clientWidth || last));
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
