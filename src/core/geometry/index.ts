export { circle, ellipse, holes, rectangle, slot, trapezoid, triangle } from './plane-areas';
export { polygonArea, type Point } from './polygon';
export { DESIGNATION } from './naca';
export { nacaOutline, type Outline, type Which } from './outline';
export { outlineFromCoordinates } from './coordinates';
export {
  angleSection,
  angleWidth,
  bendAllowance,
  bendDeduction,
  develop,
  developedWidth,
  hatSection,
  hatWidth,
  setback,
  webSection,
  webWidth,
  type Development,
  type Leg,
} from './bends';
export { bentSection, type BentSection } from './bent-section';
export { CHARTS, minimumBendRadius, type ChartName, type MinimumRadius } from './bend-radii';
export { checkBend, spreadText, type DrawnBend, type ShownUnit } from './bend-check';
