/** Draws the looks of conditional formats: fills and letters through the cell's style, bars and signs between fill and text. */
import {
  BooleanNumber,
  InterceptorEffectEnum,
  Range,
  type Injector,
  type IRange,
  type IStyleData,
} from '@univerjs/core';
import {
  IRenderManagerService,
  SheetExtension,
  type Spreadsheet,
  type SpreadsheetSkeleton,
  type UniverRenderingContext,
} from '@univerjs/engine-render';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { CellLook, ConditionalLooks } from '../../univer/extras/conditional-looks';

export function paintConditions(injector: Injector, unit: string, looks: ConditionalLooks): () => void {
  const styling = injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    effect: InterceptorEffectEnum.Style,
    handler: (cell, { unitId, subUnitId, row, col }, next) => {
      const look = unitId === unit ? looks.at(subUnitId, row, col) : undefined;
      // The style of the cell itself stays as it is: it is what is saved.
      return next(look ? { ...cell, interceptorStyle: { ...cell?.interceptorStyle, ...styleOf(look) } } : cell);
    },
  });
  const spreadsheet = injector.get(IRenderManagerService).getRenderById(unit)?.mainComponent as Spreadsheet | undefined;
  const bars = new BarsAndSigns(looks);
  spreadsheet?.register(bars);
  return () => {
    styling.dispose();
    bars.dispose();
  };
}

const flag = (is: boolean): BooleanNumber => (is ? BooleanNumber.TRUE : BooleanNumber.FALSE);
const EDGE = { s: 1, cl: { rgb: '#808080' } } as const;

function styleOf({ bold, italic, underline, strike, color, fill, border }: CellLook): IStyleData {
  return {
    ...(bold === undefined ? {} : { bl: flag(bold) }),
    ...(italic === undefined ? {} : { it: flag(italic) }),
    ...(underline === undefined ? {} : { ul: { s: flag(underline) } }),
    ...(strike === undefined ? {} : { st: { s: flag(strike) } }),
    ...(color === undefined ? {} : { cl: { rgb: color } }),
    ...(fill === undefined ? {} : { bg: { rgb: fill } }),
    ...(border ? { bd: { t: EDGE, b: EDGE, l: EDGE, r: EDGE } } : {}),
  };
}

/** Above the fill of cells (21) and below their text (45), as the engine counts. */
const BEHIND_TEXT = 30;
const INSET = 2;

class BarsAndSigns extends SheetExtension {
  override uKey = 'TarebookBarsAndSigns';
  override Z_INDEX = BEHIND_TEXT;

  constructor(private readonly looks: ConditionalLooks) {
    super();
  }

  override draw(
    context: UniverRenderingContext,
    _scale: unknown,
    skeleton: SpreadsheetSkeleton,
    changed?: IRange[],
  ): void {
    const { worksheet, rowColumnSegment } = skeleton;
    if (this.looks.isEmpty) return;
    const sheet = worksheet.getSheetId();
    for (const range of changed?.length ? changed : [rowColumnSegment])
      Range.foreach(range, (row, column) => {
        const look = this.looks.at(sheet, row, column);
        if (!(look?.bar || look?.icon) || !worksheet.getRowVisible(row) || !worksheet.getColVisible(column)) return;
        const { startX, startY, endX, endY } = skeleton.getCellWithCoordByIndex(row, column, false);
        context.save();
        if (look.bar) {
          const { from, to, color } = look.bar;
          const width = endX - startX - 2 * INSET;
          context.globalAlpha = 0.6;
          context.fillStyle = color;
          context.fillRect(
            startX + INSET + from * width,
            startY + INSET,
            (to - from) * width,
            endY - startY - 2 * INSET,
          );
        }
        if (look.icon) {
          context.globalAlpha = 1;
          context.fillStyle = look.icon.color;
          context.font = '12px sans-serif';
          context.textBaseline = 'middle';
          context.fillText(look.icon.sign, startX + INSET, (startY + endY) / 2);
        }
        context.restore();
      });
  }
}
