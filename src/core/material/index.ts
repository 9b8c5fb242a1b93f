export {
  densityOf,
  findMaterial,
  material,
  nearestWords,
  LB_IN3_PER_G_CM3,
  LB_IN3_PER_KG_M3,
  LB_IN3_PER_LB_FT3,
  MATERIALS,
  type Material,
  type PrintedDensity,
} from './densities';
export { gaugeName, gaugeThickness, nearestGauge, parseGauge } from './gauges';
export { barWeight, sectionWeight, sheetWeight, tubeWeight, volumeWeight, weightPerArea } from './weights';
