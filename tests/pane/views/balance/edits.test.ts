import { describe, expect, it } from 'vitest';
import { cellText, readTypedCell } from '../../../../src/pane/shared/field';
import { nextRow, takeRowEdits, removeStation, renameInCases } from '../../../../src/pane/views/balance/edits';
import { balanceModels, ENVELOPE, projectSheetsOf, readForm, type ProjectSheets } from '../../../../src/project';
import { airplanes } from './models';

const sheetsOf = (formulaAt?: string): ProjectSheets => {
  const sheets = projectSheetsOf(airplanes());
  const formulas: ProjectSheets['formulas'] = (sheet) =>
    sheets
      .values(sheet)
      ?.map((line, row) => line.map((_cell, column) => (`${row}:${column}` === formulaAt ? '=1' : null)));
  return { ...sheets, formulas };
};
const envelopeOf = (sheets: ProjectSheets) =>
  readForm(ENVELOPE, sheets.values('Envelope tailwheel')!, 'Envelope tailwheel')!;
const model = () => {
  const { values, names } = projectSheetsOf(airplanes());
  return balanceModels(values, names)[0]!;
};

describe('taking a row out', () => {
  it('moves those below it up and leaves the last one blank', () => {
    const sheets = sheetsOf();
    const found = envelopeOf(sheets);
    const [arms, weights] = takeRowEdits(ENVELOPE, found, sheets, found.header + 2, found.header + 5);
    expect(arms).toMatchObject({
      range: { row: found.header + 2, column: 0, rows: 4 },
      cells: [[69], [74.5], [74.5], [null]],
    });
    expect(weights).toMatchObject({ cells: [[1320], [1320], [800], [null]] });
  });

  it('only clears it where one of them holds a formula', () => {
    const found = envelopeOf(sheetsOf());
    const edits = takeRowEdits(ENVELOPE, found, sheetsOf(`${found.header + 3}:0`), found.header + 2, found.header + 5);
    expect(edits.every((edit) => edit.kind === 'write' && edit.range.rows === 1 && edit.cells[0]![0] === null)).toBe(
      true,
    );
  });

  it('finds the next free row, or says that there is none', () => {
    const sheets = sheetsOf();
    const found = envelopeOf(sheets);
    const rows = found.rows.map(({ row }) => row);
    expect(nextRow(ENVELOPE, found, rows, sheets)).toEqual({ row: found.header + 6 });
    expect(nextRow(ENVELOPE, found, rows, sheets, found.header + 6)).toMatchObject({
      full: expect.stringContaining('Insert a row'),
    });
    expect(nextRow(ENVELOPE, found, [found.header + 1], sheets)).toMatchObject({
      full: expect.stringContaining('Envelope tailwheel'),
    });
  });
});

describe('a station', () => {
  it('that is renamed is renamed in the heading of the cases', () => {
    const one = model();
    expect(renameInCases(one, one.stations[1]!.row, 'Right seat')).toMatchObject([
      { range: { sheet: 'Cases tailwheel', row: one.casesSheet!.form.header, column: 2 }, cells: [['Right seat']] },
    ]);
  });

  it('that a case loads is kept, and the case is named', () => {
    const one = model();
    expect(removeStation(one, one.stations[2]!.row)).toBe(
      'Baggage is loaded in the case Two, half tanks: unload or remove the case first.',
    );
  });

  it('that no case loads is cleared, its column of the cases with it', () => {
    const one = model();
    const unloaded = {
      ...one,
      casesSheet: {
        ...one.casesSheet!,
        cases: one.casesSheet!.cases.map((saved) => ({
          ...saved,
          loads: saved.loads.map((load, index) => (index === 2 ? 0 : load)),
        })),
      },
    };
    const edits = removeStation(unloaded, one.stations[2]!.row);
    expect(Array.isArray(edits) && edits.every((edit) => edit.kind === 'write' && edit.cells[0]![0] === null)).toBe(
      true,
    );
    expect(edits).toContainEqual(
      expect.objectContaining({
        range: { sheet: 'Cases tailwheel', row: one.casesSheet!.form.header, column: 3, rows: 1, columns: 1 },
      }),
    );
  });
});

describe('what is typed in a field', () => {
  it.each([
    ['number', '12.5', 12.5],
    ['number', '-3', -3],
    ['number', '−3', -3],
    ['number', '1,234.5', 1234.5],
    ['number', '.5', 0.5],
    ['number', '  ', null],
    ['date', '2026-03-31', 46112],
    ['text', ' Pilot ', 'Pilot'],
  ] as const)('%s "%s" is %s', (kind, typed, cell) => expect(readTypedCell(kind, typed)).toEqual({ cell }));

  it.each([
    ['number', '12,5', '“12,5”: write the decimals as 12.5'],
    ['number', '12 lb', '“12 lb” is not a number'],
    ['number', '0x10', '“0x10” is not a number'],
    ['number', 'Infinity', '“Infinity” is not a number'],
    ['date', '31.3.2026', '“31.3.2026” is not a date. Type year-month-day, such as 2026-03-31'],
    ['date', '2026-02-30', '“2026-02-30” is not a date. Type year-month-day, such as 2026-03-31'],
  ] as const)('%s "%s" is refused: %s', (kind, typed, wrong) => expect(readTypedCell(kind, typed)).toEqual({ wrong }));

  it('reads back as it was typed', () => {
    expect(cellText('number', 58.25)).toBe('58.25');
    expect(cellText('number', 0.1 + 0.2)).toBe('0.3');
    expect(cellText('date', 46112)).toBe('2026-03-31');
    expect(cellText('text', null)).toBe('');
  });
});
