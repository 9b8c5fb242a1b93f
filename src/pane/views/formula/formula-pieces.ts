/** The formula's text: English function names and a comma between arguments, as every host's port takes them. */
import { NAMESPACE, unitsPlace, type Definition, type UnitSystem } from '../../../functions';
import { textLiteral } from '../../../sheet/formula';
import { fieldsOf, takesUnits } from './definitions';

/** A piece of the formula as it is shown: one that is still to be filled in is named by its parameter. */
export interface FormulaPiece {
  readonly text: string;
  readonly missing?: true;
}

/**
 * The formula in pieces, with its "=".
 * @param args by field, in the form of a formula; undefined where there is none
 */
export function formulaPieces(
  definition: Definition,
  args: readonly (string | undefined)[],
  units: UnitSystem,
): FormulaPiece[] {
  const given = fieldsOf(definition).map(({ name, optional }, place): FormulaPiece => {
    const text = args[place];
    return text === undefined && !optional ? { text: name, missing: true } : { text: text ?? '' };
  });
  // Metric has to be said; inch and pound are what functions take.
  if (takesUnits(definition))
    given.splice(unitsPlace(definition.parameters), 0, { text: units === 'in-lb' ? '' : textLiteral(units) });
  while (given.length > 0 && given.at(-1)!.text === '') given.pop();
  return [
    { text: `=${NAMESPACE}.${definition.name}(` },
    ...given.flatMap((piece, index) => (index === 0 ? [piece] : [{ text: ',' }, piece])),
    { text: ')' },
  ];
}

/** "=TARE.FLAT.CHANNEL(B12,0.75,0.75,0.025,0.125)" @internal */
export const formulaText = (definition: Definition, args: readonly (string | undefined)[], units: UnitSystem): string =>
  formulaPieces(definition, args, units)
    .map(({ text }) => text)
    .join('');
