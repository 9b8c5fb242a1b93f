/** Student's t: how wide a band must be to hold with 95 % confidence when few parts have been weighed. */

/** Two-sided 95 % points for 1 to 30 degrees of freedom, as statistics handbooks print them. */
const T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
] as const;
const Z95 = 1.959964;

/** The two-sided 95 % point; beyond the table by the expansion in 1/degrees (Abramowitz and Stegun 26.7.5). */
export function student95(degrees: number): number {
  const listed = T95[degrees - 1];
  if (listed !== undefined) return listed;
  const z = Z95;
  return z + (z ** 3 + z) / (4 * degrees) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * degrees ** 2);
}
