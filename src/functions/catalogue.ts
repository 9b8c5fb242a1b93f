/** Every worksheet function there is. A new family is one import and one line here. */
import { airfoils } from './airfoils';
import { areas } from './areas';
import { balance } from './balance';
import { bends } from './bends';
import type { Definition } from './define';
import { hardware, material } from './material';
import { mass } from './mass';
import { prices } from './prices';
import { rivetCompare } from './rivet-compare';
import { rivetRules } from './rivet-rules';
import { rivetFunctions } from './rivets';
import { stock } from './stock';

const families: readonly Definition[] = [
  ...areas,
  ...airfoils,
  ...bends,
  ...material,
  ...rivetFunctions,
  ...rivetRules,
  ...rivetCompare,
  ...hardware,
  ...mass,
  ...balance,
  ...prices,
  ...stock,
];

/** Excel takes no function name under three characters: such a function has a longer name beside its own, and is known there by that. */
const LONGER_NAMES: Readonly<Record<string, string>> = { CG: 'CG.ARM' };

export const catalogue: readonly Definition[] = families.flatMap((definition) => {
  const longer = LONGER_NAMES[definition.name];
  return longer ? [definition, { ...definition, name: longer }] : [definition];
});

/** The name under which Excel knows a function; `name` without the namespace, in capitals. */
export const excelName = (name: string): string => LONGER_NAMES[name] ?? name;

const byName = new Map(catalogue.map((definition) => [definition.name, definition]));

/** The definition of "AREA.RECT" or "TARE.AREA.RECT", in any case; undefined where there is none. */
export const findDefinition = (name: string): Definition | undefined =>
  byName.get(name.toUpperCase().replace(/^TARE\./, ''));
