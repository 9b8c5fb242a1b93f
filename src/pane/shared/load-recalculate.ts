import { t } from '../locale';
import type { Recalculate } from './view';

/** Says what to do where the calculator cannot be fetched; it is asked for again the next time. */
export const saying = (load: () => Promise<Recalculate>) => (): Promise<Recalculate> =>
  load().catch((error: unknown) => {
    throw new Error(t('The calculator could not be loaded. Check the connection, then try again.'), { cause: error });
  });
