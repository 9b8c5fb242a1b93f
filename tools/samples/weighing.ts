/** weighing.xlsx: two invented airplanes on their wheels, a tailwheel and a nosewheel one, each with six loading cases. */
import { serialFromIso } from '../../src/core/price';
import { newAirplaneSheets, newSurfacesSheet, type NewAirplane } from '../../src/project';
import { BookBuilder, f, type Content, type SheetBuilder, type StyleName } from './book';
import { place } from './place';
import { NOSEWHEEL, SURFACES, TAILWHEEL, type SampleAirplane } from './weighing-airplanes';

const CAUTION = 'An estimate is not a weighing. Loading limits come from the aircraft’s own documents.';

function about(book: BookBuilder): void {
  const sheet = book.sheet('About');
  sheet
    .put('A1', 'Two airplanes weighed and loaded', 'title')
    .put('A2', 'Both are invented. Shaded cells are typed, everything else follows from them.', 'note')
    .put('A3', CAUTION, 'note');
  sheet.row('A5', ['Sheet', 'What it holds'], 'header');
  const rows: readonly [string, string][] = [
    [
      'Weighing …',
      'Scale readings, tare and arms; what was aboard and does not belong; empty weight, arm and per cent of the chord.',
    ],
    [
      'Loading …',
      'Stations with their arms and ranges, and the loading that is typed now, judged at take-off and at landing.',
    ],
    ['Envelope …', 'Corners of the allowed weights and arms, in order around it.'],
    ['Cases …', 'Six saved loadings, each judged with full and with burnt-off fuel. Some are outside on purpose.'],
    [
      'Control surfaces',
      'What each surface of the tailwheel airplane weighs behind its hinges, and the counterweight that balances it.',
    ],
    ['', 'The words behind a sheet’s name say which airplane it belongs to. A workbook of one airplane needs none.'],
  ];
  rows.forEach((row, index) => sheet.row(`A${6 + index}`, row, ['bold', 'text']));
  const compared: readonly [label: string, unit: string, formula: (name: string) => string, style: StyleName][] = [
    ['Empty weight', 'lb', (name) => `'Weighing ${name}'!B15`, 'pounds'],
    ['Empty arm', 'in', (name) => `'Weighing ${name}'!C15`, 'long'],
    ['Empty arm', '% MAC', (name) => `'Weighing ${name}'!E15`, 'percent'],
    ['Highest weight', 'lb', (name) => `MAX('Envelope ${name}'!B8:B27)`, 'pounds'],
    ['Useful load', 'lb', (name) => `MAX('Envelope ${name}'!B8:B27)-'Weighing ${name}'!B15`, 'pounds'],
    [
      'Forward limit at the highest weight',
      'in',
      (name) => `INDEX(TARE.BALANCE.LIMITS(MAX('Envelope ${name}'!B8:B27),'Envelope ${name}'!A8:B27),1,1)`,
      'long',
    ],
    [
      'Cases outside at take-off',
      '',
      (name) =>
        `COUNTIF('Cases ${name}'!${name === 'tailwheel' ? 'I' : 'H'}6:${name === 'tailwheel' ? 'I' : 'H'}25,"outside*")`,
      'count',
    ],
  ];
  sheet.row('A13', ['Compared', 'Unit', 'Tailwheel', 'Nosewheel'], ['header', 'header', 'headerRight', 'headerRight']);
  compared.forEach(([label, unit, formula, style], index) =>
    sheet.row(
      `A${14 + index}`,
      [label, unit, f(formula('tailwheel')), f(formula('nosewheel'))],
      ['text', 'note', style, style],
    ),
  );
  sheet.widths = [34, 18, 12, 12];
}

const sheetOf = (sheets: ReadonlyMap<string, SheetBuilder>, form: string, { name }: NewAirplane): SheetBuilder =>
  sheets.get(`${form} ${name}`)!;

function airplane(book: BookBuilder, sample: SampleAirplane): void {
  const sheets = place(book, newAirplaneSheets(sample));
  const weighing = sheetOf(sheets, 'Weighing', sample);
  const { facts } = sample;
  const values: readonly [cell: string, content: Content, style: StyleName][] = [
    ['B5', facts.airplane, 'input'],
    ['B6', serialFromIso(facts.date)!, 'date'],
    ['B8', facts.level, 'input'],
    ['B9', facts.scales, 'input'],
    ['B10', facts.lemac, 'longInput'],
    ['B11', facts.mac, 'longInput'],
  ];
  for (const [cell, content, style] of values) weighing.put(cell, content, style);
  sample.points.forEach(([reading, tare, arm], index) => {
    weighing.row(`B${19 + index}`, [reading, tare], 'poundsInput').put(`E${19 + index}`, arm, 'longInput');
  });
  sample.corrections.forEach(([name, weight, arm], index) =>
    weighing.row(`A${28 + index}`, [name, weight, arm], ['input', 'poundsInput', 'longInput']),
  );
  weighing.frozen = { rows: 3, columns: 1 };

  const loading = sheetOf(sheets, 'Loading', sample);
  sample.now.forEach((load, index) => loading.put(`C${12 + index}`, load, 'poundsInput'));
  loading.frozen = { rows: 11, columns: 1 };

  const envelope = sheetOf(sheets, 'Envelope', sample);
  envelope.put('B5', sample.limitsFrom, 'input');
  sample.corners.forEach((note, index) => envelope.put(`C${8 + index}`, note, 'input'));
  envelope.frozen = { rows: 7, columns: 0 };

  const cases = sheetOf(sheets, 'Cases', sample);
  const noteColumn = String.fromCharCode(65 + sample.stations.length + 7);
  sample.cases.forEach(([name, loads, note], index) => {
    cases.put(`A${6 + index}`, name, 'input').row(`B${6 + index}`, loads, 'poundsInput');
    if (note) cases.put(`${noteColumn}${6 + index}`, note, 'input');
  });
  cases.frozen = { rows: 5, columns: 1 };
}

export function weighing(): BookBuilder {
  const book = new BookBuilder();
  about(book);
  airplane(book, TAILWHEEL);
  airplane(book, NOSEWHEEL);
  place(book, newSurfacesSheet(undefined, SURFACES, true, 'in-lb'));
  return book;
}
