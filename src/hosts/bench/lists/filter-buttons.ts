/** Buttons in the headings of lists that have a filter: the engine draws them over the cell, a click or Alt+Down opens the panel. */
import {
  CommandType,
  ICommandService,
  InterceptorEffectEnum,
  IUniverInstanceService,
  type ICellRenderContext,
  type Injector,
} from '@univerjs/core';
import { INTERCEPTOR_POINT, SheetInterceptorService } from '@univerjs/sheets';
import type { SheetFilter, UniverWorkbook } from '../../univer';

const SIZE = 15;
const EDGE = 2;

export class FilterButtons {
  /** Headings of the open workbook by sheet, row and column: true where the column hides rows. */
  private headings: ReadonlyMap<string, boolean> | undefined;

  constructor(
    private readonly injector: Injector,
    private readonly workbook: () => UniverWorkbook | undefined,
    private readonly open: () => void,
  ) {
    injector.get(ICommandService).onCommandExecuted(({ type }) => {
      if (type === CommandType.MUTATION) this.headings = undefined;
    });
    injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
      effect: InterceptorEffectEnum.Style,
      handler: (cell, { unitId, worksheet, row, col }, next) => {
        const hides = unitId === this.workbook()?.id ? this.at(worksheet.getName(), row, col) : undefined;
        return next(
          hides !== undefined
            ? {
                ...cell,
                customRender: [
                  ...(cell?.customRender ?? []),
                  {
                    drawWith: (context, info) => draw(context, info, hides),
                    isHit,
                    onPointerDown: () => this.open(),
                  },
                ],
              }
            : cell,
        );
      },
    });
  }

  /** Opens the panel for the heading in a cell; false where there is none. */
  openAt(sheet: string, row: number, column: number): boolean {
    if (this.at(sheet, row, column) === undefined) return false;
    this.open();
    return true;
  }

  private at(sheet: string, row: number, column: number): boolean | undefined {
    this.headings ??= this.all();
    return this.headings.size === 0 ? undefined : this.headings.get(keyOf(sheet, row, column));
  }

  private all(): Map<string, boolean> {
    const workbook = this.workbook();
    const book = this.injector.get(IUniverInstanceService).getUniverSheetInstance(workbook?.id ?? '');
    const filters = book?.getSheets().flatMap((sheet) => workbook?.lists.filters(sheet.getName()) ?? []);
    return new Map(filters?.flatMap(headingsOf));
  }
}

const headingsOf = ({ range, columns }: SheetFilter): [string, boolean][] =>
  Array.from({ length: range.columns }, (_none, index) => [
    keyOf(range.sheet, range.row, range.column + index),
    columns.some(({ column }) => column === index),
  ]);

const keyOf = (sheet: string, row: number, column: number): string => `${sheet}\n${row}\n${column}`;

function place({ primaryWithCoord }: ICellRenderContext): { readonly x: number; readonly y: number } {
  const { endX, endY } = primaryWithCoord.isMergedMainCell ? primaryWithCoord.mergeInfo : primaryWithCoord;
  return { x: endX - SIZE - EDGE, y: endY - SIZE - EDGE };
}

function isHit({ x, y }: { readonly x: number; readonly y: number }, info: ICellRenderContext): boolean {
  const corner = place(info);
  return x >= corner.x && x <= corner.x + SIZE && y >= corner.y && y <= corner.y + SIZE;
}

const ARROW = { ink: '#3f4a4f', ground: '#f4f8f9', corners: [[4, 6], [11, 6], [7.5, 10]] } as const; // prettier-ignore
const FUNNEL = { ink: '#ffffff', ground: '#107284', corners: [[3, 4], [12, 4], [8.5, 8], [8.5, 12], [6.5, 11], [6.5, 8]] } as const; // prettier-ignore

/** An arrow; a funnel where the column hides rows. */
function draw(context: CanvasRenderingContext2D, info: ICellRenderContext, hides: boolean): void {
  const { x, y } = place(info);
  const { ink, ground, corners } = hides ? FUNNEL : ARROW;
  context.save();
  context.fillStyle = ground;
  context.strokeStyle = '#8a979c';
  context.lineWidth = 1;
  context.beginPath();
  context.rect(x + 0.5, y + 0.5, SIZE - 1, SIZE - 1);
  context.fill();
  context.stroke();
  context.fillStyle = ink;
  context.beginPath();
  for (const [across, down] of corners) context.lineTo(x + across, y + down);
  context.closePath();
  context.fill();
  context.restore();
}
