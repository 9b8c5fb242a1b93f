import { t } from '../locale';
import type { Recalculate } from './view';

/** What is said where the calculator cannot be had; it is asked for again the next time. */
export const noCalculator = (cause: unknown): Error =>
  new Error(t('The calculator could not be loaded. Check the connection, then try again.'), { cause });

/** Says what to do where the calculator cannot be fetched. */
export const saying = (load: () => Promise<Recalculate>) => (): Promise<Recalculate> =>
  load().catch((error: unknown) => {
    throw noCalculator(error);
  });
