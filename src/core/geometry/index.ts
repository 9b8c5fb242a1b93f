export { circle, ellipse, rectangle, slot, trapezoid, triangle } from './plane-areas';
