/** What the view remembers of a person: the functions used last, and the units. */
import { findDefinition, type Definition, type UnitSystem } from '../../../functions';
import type { Settings } from '../../shared/view';

const MOST_RECENT = 5;
const RECENT = 'insert.recent';
const UNITS = 'insert.units';

export class Preferences {
  constructor(private readonly settings: Settings) {}

  /** The last one first. */
  get recent(): readonly Definition[] {
    return (this.settings.get(RECENT) ?? '')
      .split(' ')
      .flatMap((name) => findDefinition(name) ?? [])
      .slice(0, MOST_RECENT);
  }

  use({ name }: Definition): void {
    const others = this.recent.filter((one) => one.name !== name).map((one) => one.name);
    this.settings.set(RECENT, [name, ...others].slice(0, MOST_RECENT).join(' '));
  }

  get units(): UnitSystem {
    return this.settings.get(UNITS) === 'mm-kg' ? 'mm-kg' : 'in-lb';
  }

  set units(units: UnitSystem) {
    this.settings.set(UNITS, units);
  }
}
