/** The sample airplanes as their builder would have typed them in millimetres and kilograms. */
import type { Cell } from '../../../src/functions';
import type { WorkbookModel } from '../../../src/workbook';
import { convertColumns, metricSheet, metricValues } from '../../workbook/project/metric';
import { airplanes } from './models';

export function metricAirplanes(): WorkbookModel {
  const book = airplanes();
  const sheets = book.sheets.map((sheet) => {
    const values = sheet.cells.map((row) => row.map((cell): Cell => cell?.value ?? null));
    const made = metricValues(values);
    if (sheet.name.startsWith('Cases')) {
      const header = values.findIndex((row) => row[0] === 'Case');
      const last = values[header]!.indexOf('Take-off weight (lb)');
      convertColumns(made, header + 1, Array.from({ length: last - 1 }, (_, index) => index + 1), 'weight');
    }
    return metricSheet(sheet, made, []);
  });
  // The builder's remark on the scales is the one text with a unit of its own.
  return { ...book, sheets: sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map((row) => row.map((cell) => (typeof cell?.value === 'string' && cell.value.includes('50 lb') ? { ...cell, value: cell.value.replace('50 lb', '20 kg') } : cell))) })) };
}
