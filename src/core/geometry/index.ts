export { circle, ellipse, holes, rectangle, slot, trapezoid, triangle, polygonArea, type Point } from './plane-areas';
export { DESIGNATION } from './naca';
export { nacaOutline, outlineFromCoordinates, type Outline, type Which } from './outline';
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
  bentSection,
  type Development,
  type Leg,
  type BentSection,
} from './bends';
export {
  CHARTS,
  minimumBendRadius,
  checkBend,
  spreadText,
  type ChartName,
  type MinimumRadius,
  type DrawnBend,
  type ShownUnit,
} from './bend-radii';
