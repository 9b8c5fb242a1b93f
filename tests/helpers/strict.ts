/** In every test a formula that reads a cell which it does not declare fails: so each of them checks the order, too. */
import { strictness } from '../../src/calculation/observing';

strictness.isOn = true;
