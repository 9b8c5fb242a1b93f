/** The sample airplanes as their builder would have typed them in millimetres and kilograms. */
import type { WorkbookModel } from '../../../../src/sheet';
import { metricAirplaneSheets } from '../../../project/metric';
import { airplanes } from './models';

export function metricAirplanes(): WorkbookModel {
  const book = airplanes();
  const sheets = metricAirplaneSheets(book);
  // The builder's remark on the scales is the one text with a unit of its own.
  return {
    ...book,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      cells: sheet.cells.map((row) =>
        row.map((cell) =>
          typeof cell?.value === 'string' && cell.value.includes('50 lb')
            ? { ...cell, value: cell.value.replace('50 lb', '20 kg') }
            : cell,
        ),
      ),
    })),
  };
}
