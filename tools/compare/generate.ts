/** Invented formulas over all functions: arguments mostly of the kind that a function takes, and now and then of another. */
import { FUNCTIONS } from '../../src/calculation/functions';
import { SIGNATURES } from './signatures';

/** The same seed gives the same formulas. Source: mulberry32 by T. Ettinger, public domain. */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Letters of signatures → what may stand there. */
const CHOICES: Readonly<Record<string, readonly string[]>> = {
  n: ['1', '2.5', '-3', '0', '0.1', '7', 'A1', 'A4', 'B3', 'C1', 'C2', 'A9', '100', '-0.5', '-0.004', '12.345', 'B10'],
  p: ['1', '2', '0.5', '3.7', 'B1', 'B5', 'H4', '10', '6', 'A10', '25'],
  u: ['0.1', '0.5', '0.9', '0.25', '0.01', '0.05', '0.975', 'A7'],
  k: ['0', '1', '2', '3', '-1', '4', 'A2', 'A3', '1.7', '-2'],
  i: ['1', '2', '3', '4', '5', '10', 'B1', 'B6', '7'],
  r: [
    'A1:A3',
    'B1:B10',
    'A1:B5',
    'H1:H10',
    'C1:C10',
    'J1:J10',
    'A1:A10',
    '{1,2,3,4}',
    '{5;2;8;2}',
    'F1:F5',
    'B3:B3',
    'K1:K5',
  ],
  q: ['B1:B10', 'H1:H10', 'A1:A5', 'J1:J10', 'B1:B5', '{1;2;4;7;11}'],
  s: ['B1:B10', 'H1:H10', 'A1:A10', 'F1:F10', 'J1:J10'],
  t: [
    '"Rib"',
    '"spar"',
    'D1',
    'D2',
    'D6',
    'G1',
    '"a b c"',
    '"Hello World"',
    '""',
    'D8',
    '"12.5"',
    'A2',
    'G4',
    '"2026-03-14"',
    'TRUE',
    '"x"',
  ],
  w: ['"R*"', '"*a*"', '"s?in"', '"x"', '"~*"', '"a~*b"', '"?"', '"i"', 'D4'],
  c: [
    '">2"',
    '"<>5"',
    '"rib"',
    '"r*"',
    '5',
    '"=3"',
    '"<=4"',
    'TRUE',
    '"TRUE"',
    '"s*"',
    '"*"',
    '"<>"',
    '""',
    '"="',
    '"1e1"',
    'A1',
    'D2',
    '"??b"',
    '">a"',
    '"<>r*"',
    '">=0"',
  ],
  d: [
    'F1',
    'F2',
    'F3',
    'F4',
    'F5',
    'F8',
    'F9',
    '46095',
    '45000.75',
    'DATE(2024,2,29)',
    'DATE(2025,12,31)',
    '366',
    'F7',
  ],
  b: ['TRUE', 'FALSE', '1', '0', 'A1>1'],
  m: ['A1:B2', '{1,2;3,4}', 'B1:B3', 'A1:C3', '{2,0;1,3}', 'B1:B2', 'H1:J3'],
  v: ['H1:H10', 'B1:B5', '{1;2;4;7;11}'],
  y: ['H1:J3', '{1,2;3,4}', 'H1:H3', 'A1:C3'],
  x: ['A1', 'D1', 'E1', 'E3', 'E4', 'K9', 'G1', '"a"', '3', 'TRUE', 'F1', 'C6', 'D8', '1/0', 'NA()'],
  h: ['"1010"', '"77"', '"FF"', '"1"', '10', '101', '7', '"FFFFFFFFFF"', '"0"', '255'],
  z: ['"3+4i"', '"1-i"', '"2i"', '5', '"-1.5+0.5i"', '"i"', 'B1'],
  f: [
    '"0.00"',
    '"#,##0"',
    '"0%"',
    '"yyyy-mm-dd"',
    '"d mmm yyyy"',
    '"h:mm AM/PM"',
    '"0.00E+00"',
    '"# ?/?"',
    '"#,##0.00;(#,##0.00)"',
    '"[h]:mm"',
    '"@"',
    '"000"',
    '".000"',
    '"$#,##0.00"',
    '"General"',
    '"mmmm"',
    '"dddd"',
    '"0.0##"',
    '"# ??/??"',
    '"#,"',
    '"0.0,,"',
    '"0.00;-0.00;zero"',
    '"mm:ss"',
    '"hh:mm:ss"',
    '"m/d/yy"',
    '"dd-mmm-yy"',
    '"??0.0"',
    '"00-00"',
    '"0.000%"',
    '"###"',
  ],
  g: [
    '"in"',
    '"ft"',
    '"lbm"',
    '"kg"',
    '"C"',
    '"F"',
    '"gal"',
    '"l"',
    '"psi"',
    '"Pa"',
    '"mi"',
    '"km"',
    '"HP"',
    '"W"',
    '"N"',
    '"lbf"',
    '"m"',
    '"mm"',
    '"K"',
    '"m^2"',
    '"ft^2"',
    '"hr"',
    '"mn"',
    '"J"',
    '"cal"',
    '"g"',
    '"oz"',
    '"tsp"',
    '"yd"',
    '"kn"',
    '"mph"',
    '"m/s"',
  ],
};

const ANY = [
  '1',
  'A1',
  'A4',
  'C4',
  'D1',
  'E1',
  'E3',
  'K9',
  'G1',
  'G2',
  '"x"',
  '""',
  'TRUE',
  '-1',
  'A1:A3',
  '{1,2}',
  'F1',
  'D8',
  'B1:B10',
  '1E10',
  '0.5',
];
const ARITHMETIC = ['+', '-', '*', '/', '^', '&'];
const OPERATORS = [...ARITHMETIC, '=', '<>', '<', '>', '<=', '>='];
const SCALARS = [
  '1',
  '2',
  '0',
  '-1',
  '0.1',
  'A1',
  'A2',
  'A4',
  'B2',
  'C1',
  'C4',
  'D1',
  'D3',
  'K9',
  '"a"',
  '"Rib"',
  '""',
  '"5"',
  'F1',
  'A7',
  '10%',
  '3',
  'D10',
  'D8',
  'C7',
];

/** LibreOffice adds up every number of successes: with as many trials it takes hours. */
const NEVER_ENDS = /(?:BINOM\.INV|CRITBINOM)\([^,]*1E10/;

export class Inventor {
  private readonly random: () => number;
  private readonly names: readonly string[];

  constructor(seed: number) {
    this.random = randomOf(seed);
    this.names = [...FUNCTIONS.keys()].filter((name) => SIGNATURES[name] !== undefined);
  }

  formula(): string {
    for (;;) {
      const formula = this.anyFormula();
      if (!NEVER_ENDS.test(formula)) return formula;
    }
  }

  private anyFormula(): string {
    const kind = this.random();
    if (kind < 0.12) return this.operation(2, true);
    if (kind < 0.9) return this.call(this.pick(this.names), 1);
    return `${this.call(this.pick(this.names), 1)}${this.pick(OPERATORS)}${this.pick(SCALARS)}`;
  }

  call(name: string, depth: number): string {
    const [needed = '', optional = ''] = SIGNATURES[name]!.split('|');
    const taken = optional.slice(0, Math.floor(this.random() * (optional.length + 1)));
    const args = [...needed, ...taken].map((letter) => this.argument(letter, depth));
    return `${name}(${args.join(',')})`;
  }

  private argument(letter: string, depth: number): string {
    const odd = this.random();
    if (odd < 0.05) return this.pick(ANY);
    if (odd < 0.13 && depth > 0 && 'npikut'.includes(letter)) return this.nested(letter, depth - 1);
    return this.pick(CHOICES[letter]!);
  }

  private nested(letter: string, depth: number): string {
    if (letter === 't') return this.call(this.pick(['UPPER', 'LEFT', 'TRIM', 'CONCATENATE', 'TEXT', 'MID']), depth);
    return this.random() < 0.5
      ? this.operation(1)
      : this.call(this.pick(['SUM', 'ROUND', 'ABS', 'MAX', 'AVERAGE', 'COUNT', 'IF', 'INT', 'MOD', 'LEN']), depth);
  }

  private operation(depth: number, comparing = false): string {
    const side = (): string =>
      depth > 0 && this.random() < 0.4 ? `(${this.operation(depth - 1)})` : this.pick(SCALARS);
    return `${side()}${this.pick(comparing ? OPERATORS : ARITHMETIC)}${side()}`;
  }

  private pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.random() * list.length)]!;
  }
}
