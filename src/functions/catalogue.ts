/** Every worksheet function there is. A new family is one import and one line here. */
import { airfoils } from './airfoils';
import { areas } from './areas';
import { balance } from './balance';
import { bends } from './bends';
import type { Definition } from './define';
import { mass } from './mass';
import { material } from './material';
import { prices } from './prices';
import { rivetRules } from './rivet-rules';
import { rivets } from './rivets';

export const catalogue: readonly Definition[] = [...areas, ...airfoils, ...bends, ...material, ...rivets, ...rivetRules, ...mass, ...balance, ...prices];

const byName = new Map(catalogue.map((definition) => [definition.name, definition]));

/** The definition of "AREA.RECT" or "TARE.AREA.RECT", in any case; undefined where there is none. */
export function findDefinition(name: string): Definition | undefined {
  return byName.get(name.toUpperCase().replace(/^TARE\./, ''));
}
