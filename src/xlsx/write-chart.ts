/**
 * A bar chart put on a sheet that is made here. It names the cells that it draws and carries their values, so that a
 * program that has not calculated yet shows it too. Source: ECMA-376 part 1, 21.2 (charts) and 20.5 (where it stands).
 */
import { absoluteName, type BarChart, type Cell } from '../sheet';
import { changeAttributes, SHEET_ORDER, withChild } from './elements';
import { RELATIONSHIPS, XML_HEAD, type Package } from './package';
import { escapeXml } from './xml';

const DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006';
const DRAWING_TYPE = 'application/vnd.openxmlformats-officedocument.drawing+xml';
const CHART_TYPE = 'application/vnd.openxmlformats-officedocument.drawingml.chart+xml';

/** Colours of the series in their order, without "#": told apart in grey, too. */
const COLOURS = ['107284', 'E0A030', '9AA5A9'];

/** The value of a cell of the sheet. */
type ValueAt = (row: number, column: number) => Cell;

/** Adds a sheet's charts as one drawing; returns the sheet's frame with the drawing in it. */
export function addCharts(
  file: Package,
  sheetPart: string,
  frame: string,
  {
    sheet,
    charts,
    valueAt,
  }: { readonly sheet: string; readonly charts: readonly BarChart[]; readonly valueAt: ValueAt },
): string {
  const drawing = file.freeName('xl/drawings/drawing', '.xml');
  const frames = charts.map((chart, index) => {
    const part = file.freeName('xl/charts/chart', '.xml');
    file.addPart(part, CHART_TYPE, chartXml(chart, sheet, valueAt));
    return anchored(chart, index + 2, file.relate(drawing, 'chart', part));
  });
  file.addPart(
    drawing,
    DRAWING_TYPE,
    `${XML_HEAD}<xdr:wsDr xmlns:xdr="${DRAWING}/spreadsheetDrawing" xmlns:a="${DRAWING}/main">${frames.join('')}</xdr:wsDr>`,
  );
  const relation = new Map([
    ['xmlns:r', file.inForm(RELATIONSHIPS)],
    ['r:id', file.relate(sheetPart, 'drawing', drawing)],
  ]);
  return changeAttributes(withChild(frame, 'drawing', SHEET_ORDER), 'drawing', () => relation);
}

function anchored({ title, at }: BarChart, id: number, relation: string): string {
  const corner = (tag: string, row: number, column: number): string =>
    `<xdr:${tag}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${tag}>`;
  return [
    '<xdr:twoCellAnchor>',
    corner('from', at.row, at.column),
    corner('to', at.row + at.rows, at.column + at.columns),
    `<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="${id}" name="${escapeXml(title)}" descr="${escapeXml(title)}"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr>`,
    '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>',
    `<a:graphic><a:graphicData uri="${DRAWING}/chart"><c:chart xmlns:c="${DRAWING}/chart" xmlns:r="${RELATIONSHIPS}" r:id="${relation}"/></a:graphicData></a:graphic>`,
    '</xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor>',
  ].join('');
}

function chartXml({ title, source }: BarChart, sheet: string, valueAt: ValueAt): string {
  const [first, last] = [source.row + 1, source.row + source.rows - 1];
  const valuesOf = (column: number): Cell[] =>
    Array.from({ length: last - first + 1 }, (_, index) => valueAt(first + index, column));
  const names = reference(sheet, first, last, source.column);
  const series = Array.from({ length: source.columns - 1 }, (_, index) => {
    const column = source.column + 1 + index;
    return [
      `<c:ser><c:idx val="${index}"/><c:order val="${index}"/>`,
      `<c:tx>${texts(reference(sheet, source.row, source.row, column), [valueAt(source.row, column)])}</c:tx>`,
      `<c:spPr><a:solidFill><a:srgbClr val="${COLOURS[index % COLOURS.length]}"/></a:solidFill></c:spPr><c:invertIfNegative val="0"/>`,
      `<c:cat>${texts(names, valuesOf(source.column))}</c:cat>`,
      `<c:val>${numbers(reference(sheet, first, last, column), valuesOf(column))}</c:val></c:ser>`,
    ].join('');
  });
  return [
    XML_HEAD,
    `<c:chartSpace xmlns:c="${DRAWING}/chart" xmlns:a="${DRAWING}/main"><c:roundedCorners val="0"/>`,
    `<c:chart><c:title><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="1200" b="1"/></a:pPr><a:r><a:rPr lang="en-US" sz="1200" b="1"/><a:t>${escapeXml(title)}</a:t></a:r></a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`,
    '<c:autoTitleDeleted val="0"/><c:plotArea><c:layout/>',
    '<c:barChart><c:barDir val="bar"/><c:grouping val="clustered"/><c:varyColors val="0"/>',
    ...series,
    '<c:gapWidth val="60"/><c:axId val="1"/><c:axId val="2"/></c:barChart>',
    // The first row of the list stands at the top, as on the sheet.
    '<c:catAx><c:axId val="1"/><c:scaling><c:orientation val="maxMin"/></c:scaling><c:delete val="0"/><c:axPos val="l"/><c:majorTickMark val="none"/><c:minorTickMark val="none"/><c:tickLblPos val="low"/><c:crossAx val="2"/><c:crosses val="autoZero"/></c:catAx>',
    '<c:valAx><c:axId val="2"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/><c:axPos val="b"/><c:majorGridlines/><c:numFmt formatCode="General" sourceLinked="0"/><c:majorTickMark val="none"/><c:minorTickMark val="none"/><c:tickLblPos val="nextTo"/><c:crossAx val="1"/><c:crosses val="max"/></c:valAx>',
    '</c:plotArea><c:legend><c:legendPos val="b"/><c:overlay val="0"/></c:legend><c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart></c:chartSpace>',
  ].join('');
}

const reference = (sheet: string, first: number, last: number, column: number): string =>
  absoluteName({ sheet, row: first, column, rows: last - first + 1, columns: 1 });

const texts = (formula: string, values: readonly Cell[]): string =>
  `<c:strRef><c:f>${escapeXml(formula)}</c:f><c:strCache>${points(values, (value) => (typeof value === 'string' && value !== '' ? value : undefined))}</c:strCache></c:strRef>`;

const numbers = (formula: string, values: readonly Cell[]): string =>
  `<c:numRef><c:f>${escapeXml(formula)}</c:f><c:numCache><c:formatCode>General</c:formatCode>${points(values, (value) => (typeof value === 'number' ? String(value) : undefined))}</c:numCache></c:numRef>`;

const points = (values: readonly Cell[], textOf: (value: Cell) => string | undefined): string =>
  `<c:ptCount val="${values.length}"/>${values
    .map((value, index) => {
      const text = textOf(value);
      return text === undefined ? '' : `<c:pt idx="${index}"><c:v>${escapeXml(text)}</c:v></c:pt>`;
    })
    .join('')}`;
