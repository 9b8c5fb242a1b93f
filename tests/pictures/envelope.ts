/** An invented loading envelope to draw. */
import { makeEnvelope } from '../../src/core/balance';

export const envelope = makeEnvelope([
  { arm: 66.5, weight: 800 },
  { arm: 66.5, weight: 1050 },
  { arm: 69, weight: 1320 },
  { arm: 74.5, weight: 1320 },
  { arm: 74.5, weight: 800 },
]);
