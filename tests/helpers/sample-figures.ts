/**
 * Figures of the sample workbooks that tests and texts quote, in one place. tests/samples/by-hand.test.ts holds them
 * against sums that are worked out apart from Tarebook (by-hand.py).
 */

/** wing.xlsx: lb, in, lb·in. */
export const WING = {
  weight: '82.17',
  arm: '84.61',
  moment: '6952',
  forecast: '90.40',
  budget: '92.6',
  margin: '2.20',
  aileronMargin: '-0.44',
} as const;

/** budget.xlsx, lb. */
export const BUDGETED = { weight: '82.54', forecast: '87.76', budget: '91.35', margin: '3.59' } as const;

const DENSITY_2024 = (2.78 * 2.54 ** 3) / 453.59237;
const cylinder = (diameter: number, length: number): number => (Math.PI / 4) * diameter ** 2 * length;

/**
 * The example component Skins of a new workbook, lb: a 62 × 42 sheet of 2024-T3, .025 thick (2.78 g/cm³, Aluminum
 * Association), 60 solid rivets MS20470AD3-3 (2117, 2.75 g/cm³; shank .094, head 2D by .43D) and 8 rows of 32 blind
 * ones of 1/8 (5052 and 7178; see by-hand.py for their solids); two pins of .036 lb and eight screws ISO 4017 M5x16 of
 * steel at .284 lb/in³ (8 mm across flats, 3.5 mm of head, 4.4804 mm of pitch diameter).
 */
export function exampleSkins(): number {
  const lb = (grams: number): number => (grams * 2.54 ** 3) / 453.59237;
  const [d, h] = [0.094, 0.43 * 0.094];
  const solid = ((Math.PI * h) / 6) * (3 * d ** 2 + h ** 2) + cylinder(d, 3 / 16);
  const sphere = (0.125 ** 2 + 0.04 ** 2) / 0.08;
  const dome =
    ((2 * Math.PI) / 3) * ((sphere ** 2 - 0.038 ** 2) ** 1.5 - (sphere ** 2 - 0.125 ** 2) ** 1.5) -
    Math.PI * (sphere - 0.04) * (0.125 ** 2 - 0.038 ** 2);
  const body = cylinder(0.125, 0.212) - cylinder(0.076, 0.212) + dome;
  const stemHead = ((Math.PI * 0.12) / 12) * (0.076 ** 2 + 0.076 * 0.122 + 0.122 ** 2);
  const screw = ((Math.sqrt(3) / 2) * 8 ** 2 * 3.5 + cylinder(5 - 0.649519 * 0.8, 16)) / 25.4 ** 3;
  const rivets = 60 * solid * lb(2.75) + 8 * 32 * (body * lb(2.68) + stemHead * lb(2.83));
  return 62 * 42 * 0.025 * DENSITY_2024 + rivets + 2 * 0.036 + 8 * screw * 0.284;
}
