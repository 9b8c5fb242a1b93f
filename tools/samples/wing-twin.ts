/**
 * What the sample wing's TARE functions are in plain spreadsheet arithmetic, so that a spreadsheet that
 * knows nothing of Tarebook can compute the same wing. Written apart from the core, from the same
 * published relations.
 */
import { outlineMeasures } from './airfoil-measures';
import { SheetBuilder } from './book';
import { DENSITY } from './expression';

export interface WingTwin {
  /** Values of the Design sheet's airfoil quantities, by name. */
  readonly airfoil: Readonly<Record<string, number>>;
  /** Density of the material named in a cell. */
  density(cell: string): string;
  /** Price of one unit of use of the item named in a cell. */
  price(cell: string): string;
  /** Rivet of the joint in a row of the Joints sheet. */
  pick(row: number): string;
  /** Installed weight of the rivet named in a cell. */
  rivetWeight(cell: string): string;
  /** Weight of one piece of the metric hardware named in a cell. */
  hardwareWeight(cell: string): string;
}

/** NACA 2415 on the sample's chord and spars. */
const airfoil = (): Record<string, number> => {
  const m = outlineMeasures({ camber: 0.02, at: 0.4, thickness: 0.15 }, 54);
  return {
    FrontDepth: m.height(0.27),
    RearDepth: m.height(0.68),
    NoseArea: m.area(0, 0.27),
    MidArea: m.area(0.27, 0.68),
    AftArea: m.area(0.68, 1),
    NoseGirth: m.girth(0, 0.27, 1) + m.girth(0, 0.27, -1),
    UpperGirth: m.girth(0.27, 0.68, 1),
    LowerGirth: m.girth(0.27, 0.68, -1),
    AftGirth: m.girth(0.68, 1, 1) + m.girth(0.68, 1, -1),
  };
};

export const wingTwin = (): WingTwin => ({
  airfoil: airfoil(),
  density: (cell) => `VLOOKUP(${cell},Twin!$A$1:$B$20,2,FALSE)`,
  price: (cell) => `VLOOKUP(${cell},Twin!$D$1:$E$140,2,FALSE)`,
  pick: (r) =>
    `IF(F${r}="blind","BLIND-AA-41",IF(F${r}="flush","MS20426AD","MS20470AD")&ROUND(G${r}*32,0)&"-"&ROUND((N${r}+1.5*G${r})*16,0))`,
  rivetWeight: (cell) => `VLOOKUP(${cell},Twin!$G$1:$H$80,2,FALSE)`,
  hardwareWeight: (cell) => `VLOOKUP(${cell},Twin!$J$1:$K$10,2,FALSE)`,
});

/** Nominal shank of a solid rivet, in: MS20470 and MS20426. */
const SHANK: Readonly<Record<number, number>> = { 3: 0.094, 4: 0.125, 5: 0.156 };
const FLUSH_HEAD: Readonly<Record<number, number>> = { 3: 0.179, 4: 0.225 };

/** Weight of one rivet: head and shank, or body, dome and mandrel, as an ordinary formula. */
function rivetFormula(code: string, state: 'installed' | 'bought'): string {
  const solid = /^MS20(470|426)AD(\d)-([\d.]+)$/.exec(code);
  if (solid) {
    const d = SHANK[Number(solid[2])]!;
    const length = Number(solid[3]) / 16;
    if (solid[1] === '470')
      return `(PI()*0.43*${d}/6*(3*${d}^2+(0.43*${d})^2)+PI()*${d}^2/4*${length})*${DENSITY['2117']}`;
    const a = FLUSH_HEAD[Number(solid[2])]!;
    const h = `((${a}-${d})/(2*TAN(50*PI()/180)))`;
    return `(PI()*${h}/12*(${a}^2+${a}*${d}+${d}^2)+PI()*${d}^2/4*(${length}-${h}))*${DENSITY['2117']}`;
  }
  // 1/8 in blind rivet whose stem breaks off, size 41: body .128/.122, head .262/.238 × .040, mandrel .076, body length
  // .062 + .150 (the greatest grip and what IFI-114 table 2 adds, from memory, verify).
  const sphere = '((0.125^2+0.04^2)/(2*0.04))';
  const dome = `(2*PI()/3*((${sphere}^2-0.038^2)^1.5-(${sphere}^2-0.125^2)^1.5)-PI()*(${sphere}-0.04)*(0.125^2-0.038^2))`;
  const body = `(PI()*(0.125^2-0.076^2)/4*0.212+${dome})*${DENSITY['5052']}`;
  const head = 'PI()*0.12/12*(0.076^2+0.076*0.122+0.122^2)';
  const stem = state === 'bought' ? '+PI()*0.076^2/4*(0.212+0.04+1)' : '';
  return `${body}+(${head}${stem})*${DENSITY['7178']}`;
}

/** M4 of ISO 4017 (12 long), ISO 4032 and ISO 7089, in mm, as steel of .284 lb/in³. */
const M4_HARDWARE: readonly (readonly [name: string, cubicMillimetres: string])[] = [
  ['ISO 4017 M4x12', 'SQRT(3)/2*7^2*2.8+PI()/4*(4-0.649519*0.7)^2*12'],
  ['ISO 4032 M4', '(SQRT(3)/2*7^2-PI()/4*(4-0.649519*0.7)^2)*3.2'],
  ['ISO 7089 M4', 'PI()/4*(9^2-4.3^2)*0.8'],
];

/** Contents of a sale unit as a plain number. */
function contentsFormula(kind: string, soldBy: string, contents: string): string {
  const sheet = /^(\d+) x (\d+)$/.exec(contents);
  if (sheet) return `${sheet[1]}*${sheet[2]}`;
  const feet = /^(\d+) ft$/.exec(contents);
  if (feet) return `${feet[1]}*12`;
  if (soldBy === 'ft') return '12';
  if (soldBy === '100' || soldBy === '1000') return soldBy;
  return kind === 'other' || soldBy === 'each' ? '1' : '';
}

/** The sheet of look-ups that only the plain form needs: densities, prices of one unit of use, rivet weights. */
export function twinSheet(prices: SheetBuilder, rivets: readonly string[]): SheetBuilder {
  const sheet = new SheetBuilder('Twin');
  ['6061-T6', '4130'].forEach((name, index) => sheet.row(`A${index + 1}`, [name, { formula: DENSITY[name]! }]));
  let at = 1;
  prices.cells.slice(1).forEach((row, index) => {
    const text = (column: number): string => String(row[column]?.value ?? '');
    const [item, kind, soldBy] = [text(0), text(1), text(2)];
    const contents =
      kind === 'rivet' && soldBy === 'lb'
        ? `1/(${rivetFormula(item, 'bought')})`
        : contentsFormula(kind, soldBy, text(3));
    // VLOOKUP takes the first row of an item, which is its lowest break.
    sheet.row(`D${at++}`, [item, { formula: `Prices!$E$${index + 2}/(${contents})` }]);
  });
  M4_HARDWARE.forEach(([name, volume], index) =>
    sheet.row(`J${index + 1}`, [name, { formula: `(${volume})/25.4^3*0.284` }]),
  );
  rivets.forEach((code, index) => sheet.row(`G${index + 1}`, [code, { formula: rivetFormula(code, 'installed') }]));
  return sheet;
}
