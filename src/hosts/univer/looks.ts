/** The looks that the model carries as the engine's styles, and the other way round. */
import { BooleanNumber, HorizontalAlign, WrapStrategy, type IStyleData, type Nullable } from '@univerjs/core';
import type { StyleModel } from '../../sheet';

const LINE = { s: 1, cl: { rgb: '#808080' } } as const;
const ALIGN = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT } as const;

export function toStyle(style: StyleModel): IStyleData {
  return {
    ...(style.numberFormat ? { n: { pattern: style.numberFormat } } : {}),
    ...(style.bold ? { bl: BooleanNumber.TRUE } : {}),
    ...(style.italic ? { it: BooleanNumber.TRUE } : {}),
    ...(style.size ? { fs: style.size } : {}),
    ...(style.color ? { cl: { rgb: style.color } } : {}),
    ...(style.fill ? { bg: { rgb: style.fill } } : {}),
    ...(style.align ? { ht: ALIGN[style.align] } : {}),
    ...(style.wrap ? { tb: WrapStrategy.WRAP } : {}),
    ...(style.borderBottom ? { bd: { b: LINE } } : {}),
  };
}

export function fromStyle(style: IStyleData): StyleModel {
  const align = (Object.keys(ALIGN) as (keyof typeof ALIGN)[]).find((name) => ALIGN[name] === style.ht);
  const color = hex(style.cl?.rgb);
  const fill = hex(style.bg?.rgb);
  return {
    ...(style.n?.pattern ? { numberFormat: style.n.pattern } : {}),
    ...(style.bl ? { bold: true } : {}),
    ...(style.it ? { italic: true } : {}),
    ...(style.fs ? { size: style.fs } : {}),
    ...(color ? { color } : {}),
    ...(fill ? { fill } : {}),
    ...(align ? { align } : {}),
    ...(style.tb === WrapStrategy.WRAP ? { wrap: true } : {}),
    ...(style.bd?.b ? { borderBottom: true } : {}),
  };
}

/** "#rrggbb" of what the engine's toolbar writes ("#RRGGBB" or "rgb(r, g, b)"). */
function hex(color: Nullable<string>): string | undefined {
  if (!color) return undefined;
  const parts = /^rgba?\((\d+),\s*(\d+),\s*(\d+)/.exec(color);
  if (parts)
    return `#${parts
      .slice(1, 4)
      .map((part) => Number(part).toString(16).padStart(2, '0'))
      .join('')}`;
  return /^#[0-9a-f]{6}$/i.test(color) ? color.toLowerCase() : undefined;
}
