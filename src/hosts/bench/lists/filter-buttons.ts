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

interface Heading {
  /** True where the column hides rows. */
  readonly hides: boolean;
}

export class FilterButtons {
  /** Headings of the open workbook by sheet, row and column. */
  private headings: ReadonlyMap<string, Heading> | undefined;

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
        const heading = unitId === this.workbook()?.id ? this.at(worksheet.getName(), row, col) : undefined;
        return next(
          heading
            ? {
                ...cell,
                customRender: [
                  ...(cell?.customRender ?? []),
                  {
                    drawWith: (context, info) => draw(context, info, heading),
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
    if (!this.at(sheet, row, column)) return false;
    this.open();
    return true;
  }

  private at(sheet: string, row: number, column: number): Heading | undefined {
    this.headings ??= this.all();
    return this.headings.size === 0 ? undefined : this.headings.get(keyOf(sheet, row, column));
  }

  private all(): Map<string, Heading> {
    const workbook = this.workbook();
    const book = this.injector.get(IUniverInstanceService).getUniverSheetInstance(workbook?.id ?? '');
    const filters = book?.getSheets().flatMap((sheet) => workbook?.lists.filters(sheet.getName()) ?? []);
    return new Map(filters?.flatMap(headingsOf));
  }
}

const headingsOf = ({ range, columns }: SheetFilter): [string, Heading][] =>
  Array.from({ length: range.columns }, (_none, index) => [
    keyOf(range.sheet, range.row, range.column + index),
    { hides: columns.some(({ column }) => column === index) },
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

const INK = { shown: '#3f4a4f', hides: '#ffffff' };
const GROUND = { shown: '#f4f8f9', hides: '#107284' };

/** An arrow; a funnel where the column hides rows. */
function draw(context: CanvasRenderingContext2D, info: ICellRenderContext, { hides }: Heading): void {
  const { x, y } = place(info);
  const kind = hides ? 'hides' : 'shown';
  context.save();
  context.fillStyle = GROUND[kind];
  context.strokeStyle = '#8a979c';
  context.lineWidth = 1;
  context.beginPath();
  context.rect(x + 0.5, y + 0.5, SIZE - 1, SIZE - 1);
  context.fill();
  context.stroke();
  context.fillStyle = INK[kind];
  context.beginPath();
  for (const [across, down] of hides ? FUNNEL : ARROW) context.lineTo(x + across, y + down);
  context.closePath();
  context.fill();
  context.restore();
}

const ARROW = [[4, 6], [11, 6], [7.5, 10]] as const; // prettier-ignore
const FUNNEL = [[3, 4], [12, 4], [8.5, 8], [8.5, 12], [6.5, 11], [6.5, 8]] as const; // prettier-ignore
