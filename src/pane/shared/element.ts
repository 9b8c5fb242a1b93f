/** What an element of the page has in common with others: how it is measured, when it takes the focus, what Escape does in it. */
import { useEffect, useLayoutEffect, useRef, useState, type KeyboardEvent, type RefObject } from 'react';

/**
 * What is measured of an element, kept up to date with its size and its content's.
 * @param first   what it is before it was measured
 * @param measure a function of the module: a new one each time would be a new watch
 */
export function useMeasured<T>(
  element: RefObject<HTMLElement | null>,
  first: T,
  measure: (watched: HTMLElement, last: T) => T,
): T {
  const [measured, setMeasured] = useState(first);
  useLayoutEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const observer = new ResizeObserver(() => setMeasured((last) => measure(watched, last)));
    observer.observe(watched);
    if (watched.firstElementChild) observer.observe(watched.firstElementChild);
    return () => observer.disconnect();
  }, [element, measure]);
  return measured;
}

const widthOf = ({ clientWidth }: HTMLElement, last: number): number => clientWidth || last;

/** An element's inner width in pixels; one that is hidden keeps its last width. */
export const useWidth = (element: RefObject<HTMLElement | null>): number => useMeasured(element, 0, widthOf);

/**
 * An element that takes the focus when it appears, or when what it waits for comes.
 * @param when  what it waits for: neither undefined nor false
 * @param again what it takes the focus for once more, when that changes
 */
export function useFocus<E extends HTMLElement>(when: unknown, again?: unknown): RefObject<E | null> {
  const element = useRef<E>(null);
  useEffect(() => {
    if (when !== undefined && when !== false) element.current?.focus();
  }, [when, again]);
  return element;
}

/** Takes Escape for itself: what is around does not hear of it. */
export const onEscape =
  (leave: () => void) =>
  (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    leave();
  };
