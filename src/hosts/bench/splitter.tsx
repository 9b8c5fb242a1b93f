import { useRef, type KeyboardEvent, type PointerEvent } from 'react';
import { NARROWEST, WIDEST, within } from './pane-look';

const STEP = 24;

/** The line between grid and pane: dragged, or moved with the arrow keys. */
export function Splitter({ width, onWidth }: { readonly width: number; readonly onWidth: (width: number) => void }) {
  const start = useRef<{ x: number; width: number } | undefined>(undefined);
  const down = (event: PointerEvent<HTMLDivElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    start.current = { x: event.clientX, width };
  };
  const move = ({ clientX }: PointerEvent<HTMLDivElement>): void => {
    if (start.current) onWidth(within(start.current.width + start.current.x - clientX));
  };
  const key = (event: KeyboardEvent<HTMLDivElement>): void => {
    const next = { ArrowLeft: width + STEP, ArrowRight: width - STEP, Home: WIDEST, End: NARROWEST }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    onWidth(within(next));
  };
  return (
    <div
      className="splitter"
      role="separator"
      aria-orientation="vertical"
      aria-label="Width of the task pane"
      aria-valuenow={width}
      aria-valuemin={NARROWEST}
      aria-valuemax={WIDEST}
      tabIndex={0}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={() => (start.current = undefined)}
      onPointerCancel={() => (start.current = undefined)}
      onKeyDown={key}
    />
  );
}
