/** A judged loading as the picture of the envelope takes it, in the pane's language. */
import type { UnitSystem } from '../../../core/quantity';
import type { EnvelopeCase } from '../../../pictures';
import { envelopeCase } from '../../../report';
import type { JudgedCase } from '../../../project';
import { t } from '../../locale';
import { figuresIn } from './balance-numbers';
import { verdictText } from './verdict-words';

/** A loading that has no row on the sheet of cases is the one that is typed now. */
export const pictureCase = (judged: JudgedCase, units: UnitSystem): EnvelopeCase => ({
  ...envelopeCase(judged),
  name: judged.row === undefined ? t('Loading now') : judged.name,
  words: verdictText(judged.result, figuresIn(units)),
});
