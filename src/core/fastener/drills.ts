/**
 * Diameters, inches, of the number and letter drills that rivets use.
 * ASME B94.11M (number drills 1 to 80, letter drills A to Z), as GNU units has them (drillgauge), which a test compares.
 * #41 and #30 are .096 and .1285 in a repair manual of the Curtiss P-40, too, #21 and F .159 and .257 in a tap chart.
 */
const DRILLS: Readonly<Record<string, number>> = {
  '#51': 0.067,
  '#41': 0.096,
  '#40': 0.098,
  '#30': 0.1285,
  '#21': 0.159,
  '#20': 0.161,
  '#11': 0.191,
  F: 0.257,
};

/** Diameter of a drill of the tables of rivets. */
export function drillDiameter(drill: string): number {
  const diameter = DRILLS[drill];
  if (diameter === undefined) throw new Error(`no diameter for drill ${drill}`);
  return diameter;
}

/** Diameter by the name of a drill of the tables; undefined for any other. */
export function drillNamed(name: string): number | undefined {
  const plain = name
    .trim()
    .toUpperCase()
    .replace(/^(?:NO\.?|NUMBER)\s*/, '#');
  return Object.hasOwn(DRILLS, plain) ? DRILLS[plain] : undefined;
}
