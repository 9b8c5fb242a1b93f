/**
 * lb/in³ in one g/cm³: 2.54³ / 453.59237.
 * Exact by definition of the inch (25.4 mm) and the avoirdupois pound (0.45359237 kg), NIST SP 811 appendix B.
 */
export const LB_IN3_PER_G_CM3 = 2.54 ** 3 / 453.59237;

/** lb/in³ in one kg/m³. */
export const LB_IN3_PER_KG_M3 = LB_IN3_PER_G_CM3 / 1000;

/** lb/in³ in one lb/ft³. */
export const LB_IN3_PER_LB_FT3 = 1 / 1728;
