/**
 * What is painted into the grid and never saved: the looks of conditional formats (fills and letters through the cell's
 * style, bars and signs between fill and text); over the cells pictures of the file, and for a chart or a shape a frame
 * with its name. They are paint and nothing else: what is clicked is the cell below.
 */
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
import type { Corner, Drawing } from '../../../xlsx/extras/read';
import type { CellLook, ConditionalLooks } from '../../univer/extras/conditional-looks';

type Handler = (typeof INTERCEPTOR_POINT.CELL_CONTENT)['handler'];

/** Has cells of a workbook drawn in another style: the style of the cell itself stays as it is, for it is what is saved. */
export function styleCells(
  injector: Injector,
  unit: string,
  styled: (cell: Parameters<Handler>[0], place: Parameters<Handler>[1]) => ReturnType<Handler>,
): () => void {
  const styling = injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    effect: InterceptorEffectEnum.Style,
    handler: (cell, place, next) => next(place.unitId === unit ? styled(cell, place) : cell),
  });
  return () => styling.dispose();
}

function paintOver(injector: Injector, unit: string, painting: SheetExtension): () => void {
  const spreadsheet = injector.get(IRenderManagerService).getRenderById(unit)?.mainComponent as Spreadsheet | undefined;
  spreadsheet?.register(painting);
  return () => painting.dispose();
}

export function paintConditions(injector: Injector, unit: string, looks: ConditionalLooks): () => void {
  const stops = [
    styleCells(injector, unit, (cell, { subUnitId, row, col }) => {
      const look = looks.at(subUnitId, row, col);
      return look ? { ...cell, interceptorStyle: { ...cell?.interceptorStyle, ...styleOf(look) } } : cell;
    }),
    paintOver(injector, unit, new BarsAndSigns(looks)),
  ];
  return () => stops.forEach((stop) => stop());
}

const flag = (is: boolean): BooleanNumber => (is ? BooleanNumber.TRUE : BooleanNumber.FALSE);
const EDGE = { s: 1, cl: { rgb: '#808080' } } as const;

const styleOf = ({ bold, italic, underline, strike, color, fill, border }: CellLook): IStyleData => ({
  ...(bold === undefined ? {} : { bl: flag(bold) }),
  ...(italic === undefined ? {} : { it: flag(italic) }),
  ...(underline === undefined ? {} : { ul: { s: flag(underline) } }),
  ...(strike === undefined ? {} : { st: { s: flag(strike) } }),
  ...(color === undefined ? {} : { cl: { rgb: color } }),
  ...(fill === undefined ? {} : { bg: { rgb: fill } }),
  ...(border ? { bd: { t: EDGE, b: EDGE, l: EDGE, r: EDGE } } : {}),
});

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

/** English metric units in a pixel: 914,400 an inch, 96 pixels an inch. */
const UNITS_PER_PX = 914_400 / 96;

export interface DrawingSource {
  on(sheet: string): readonly Drawing[];
  /** Bytes of a part of the file. */
  bytes(part: string): Uint8Array | undefined;
}

export const paintDrawings = (
  injector: Injector,
  unit: string,
  source: DrawingSource,
  redraw: () => void,
): (() => void) => paintOver(injector, unit, new Drawings(source, new Pictures(source, redraw)));

/** More bytes than this are no picture of a part. */
const MOST_BYTES = 20_000_000;

/** Pictures that the browser can draw, each once. */
class Pictures {
  private readonly found = new Map<string, ImageBitmap | undefined>();
  private isGone = false;

  constructor(
    private readonly source: DrawingSource,
    private readonly redraw: () => void,
  ) {}

  /** undefined while it is made ready, and where it cannot be. */
  get(part: string): ImageBitmap | undefined {
    if (!this.found.has(part)) {
      this.found.set(part, undefined);
      void this.load(part);
    }
    return this.found.get(part);
  }

  dispose(): void {
    this.isGone = true;
    for (const picture of this.found.values()) picture?.close();
    this.found.clear();
  }

  private async load(part: string): Promise<void> {
    const bytes = this.source.bytes(part);
    if (!bytes || bytes.length > MOST_BYTES) return;
    // A kind that the browser does not draw has a frame.
    const picture = await createImageBitmap(new Blob([bytes as BlobPart])).catch(() => undefined);
    if (!picture) return;
    if (this.isGone) return picture.close();
    this.found.set(part, picture);
    this.redraw();
  }
}

/** Above marks of cells (60), as the engine counts. */
const ABOVE_CELLS = 70;
const WORDS = { picture: 'Picture', chart: 'Chart', shape: 'Shape' } as const;
const FRAME = '#5f7a84';
const TAG_HEIGHT = 18;

class Drawings extends SheetExtension {
  override uKey = 'TarebookDrawings';
  override Z_INDEX = ABOVE_CELLS;

  constructor(
    private readonly source: DrawingSource,
    private readonly pictures: Pictures,
  ) {
    super();
  }

  override dispose(): void {
    super.dispose();
    this.pictures.dispose();
  }

  override draw(context: UniverRenderingContext, _scale: unknown, skeleton: SpreadsheetSkeleton): void {
    for (const drawing of this.source.on(skeleton.worksheet.getSheetId())) {
      const box = boxOf(drawing, skeleton);
      if (box.width < 1 || box.height < 1) continue;
      const picture = drawing.picture === undefined ? undefined : this.pictures.get(drawing.picture);
      context.save();
      if (picture) context.drawImage(picture, box.x, box.y, box.width, box.height);
      else drawFrame(context, box, drawing);
      context.restore();
    }
  }
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function boxOf({ from, to }: Drawing, skeleton: SpreadsheetSkeleton): Box {
  const start = pointOf(from, skeleton);
  const end =
    'row' in to
      ? pointOf(to, skeleton)
      : { x: start.x + to.width / UNITS_PER_PX, y: start.y + to.height / UNITS_PER_PX };
  return { ...start, width: end.x - start.x, height: end.y - start.y };
}

/** A corner on the sheet: never farther from its cell's corner than the cell is large, but where it counts from the first. */
function pointOf({ row, column, down, across }: Corner, skeleton: SpreadsheetSkeleton): { x: number; y: number } {
  const { startX, startY, endX, endY } = skeleton.getCellWithCoordByIndex(row, column, false);
  const isFree = row === 0 && column === 0;
  const [right, below] = isFree ? [Infinity, Infinity] : [endX, endY];
  return { x: Math.min(right, startX + across / UNITS_PER_PX), y: Math.min(below, startY + down / UNITS_PER_PX) };
}

/** The cells below stay readable: a line around, and the name on a tag. */
function drawFrame(context: UniverRenderingContext, { x, y, width, height }: Box, { kind, name }: Drawing): void {
  context.beginPath();
  context.rect(x, y, width, height);
  context.clip();
  context.strokeStyle = FRAME;
  context.lineWidth = 2;
  context.setLineDash([6, 4]);
  context.strokeRect(x + 1, y + 1, width - 2, height - 2);
  context.font = '12px sans-serif';
  const text = name && !name.toLowerCase().startsWith(kind) ? `${WORDS[kind]}: ${name}` : name || WORDS[kind];
  context.fillStyle = FRAME;
  context.fillRect(x, y, Math.min(width, context.measureText(text).width + 12), TAG_HEIGHT);
  context.fillStyle = '#ffffff';
  context.textBaseline = 'middle';
  context.fillText(text, x + 6, y + TAG_HEIGHT / 2);
}
