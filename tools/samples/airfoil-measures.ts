/**
 * Length, area and depth of a NACA 4-digit outline by brute force: many short straight steps, and
 * Richardson's extrapolation over three step sizes. Slow and simple, and apart from the core's own way,
 * so that the two can be compared. Equations: NACA Report 460 (1933).
 */
interface FourDigit {
  readonly camber: number;
  readonly at: number;
  readonly thickness: number;
}

export interface OutlineMeasures {
  /** Length along the upper (1) or lower (-1) surface between two fractions of the chord. */
  girth(from: number, to: number, side: 1 | -1): number;
  area(from: number, to: number): number;
  height(at: number): number;
}

export function outlineMeasures({ camber: m, at: p, thickness: t }: FourDigit, chord: number): OutlineMeasures {
  const half = (x: number): number =>
    5 * t * (0.2969 * Math.sqrt(x) - 0.126 * x - 0.3516 * x ** 2 + 0.2843 * x ** 3 - 0.1015 * x ** 4);
  const line = (x: number): number =>
    x < p ? (m / p ** 2) * (2 * p * x - x ** 2) : (m / (1 - p) ** 2) * (1 - 2 * p + 2 * p * x - x ** 2);
  const slope = (x: number): number => (x < p ? ((2 * m) / p ** 2) * (p - x) : ((2 * m) / (1 - p) ** 2) * (p - x));
  /** Point of a surface; the thickness is laid off at a right angle to the camber line. */
  const point = (x: number, side: 1 | -1): [number, number] => {
    const angle = Math.atan(slope(x));
    return [x - side * half(x) * Math.sin(angle), line(x) + side * half(x) * Math.cos(angle)];
  };
  /** Parameter at which a surface stands over a fraction of the chord. */
  const over = (fraction: number, side: 1 | -1): number => {
    if (fraction === 0 || fraction === 1) return fraction;
    let [low, high] = [0, 1];
    for (let step = 0; step < 200; step++) {
      const middle = (low + high) / 2;
      if (point(middle, side)[0] < fraction) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  /** Sum over steps of the parameter, split at the bend of the camber line, extrapolated to step zero. */
  const integrate = (from: number, to: number, piece: (a: number, b: number) => number): number => {
    const between = (a: number, b: number, n: number): number => {
      // x = a + (b − a) s², which takes the square root at the nose out of the way.
      const x = (i: number): number => a + (b - a) * (i / n) ** 2;
      let sum = 0;
      for (let i = 0; i < n; i++) sum += piece(x(i), x(i + 1));
      return sum;
    };
    const extrapolated = (a: number, b: number): number => {
      const [s1, s2, s3] = [2000, 4000, 8000].map((n) => between(a, b, n)) as [number, number, number];
      const [r1, r2] = [(4 * s2 - s1) / 3, (4 * s3 - s2) / 3];
      return (16 * r2 - r1) / 15;
    };
    return from < p && to > p ? extrapolated(from, p) + extrapolated(p, to) : extrapolated(from, to);
  };
  const lengthOf =
    (side: 1 | -1) =>
    (a: number, b: number): number => {
      const [xa, ya] = point(a, side);
      const [xb, yb] = point(b, side);
      return Math.hypot(xb - xa, yb - ya);
    };
  const under =
    (side: 1 | -1) =>
    (a: number, b: number): number => {
      const [xa, ya] = point(a, side);
      const [xb, yb] = point(b, side);
      return ((ya + yb) / 2) * (xb - xa);
    };
  const between = (from: number, to: number, side: 1 | -1, piece: (a: number, b: number) => number): number =>
    integrate(over(from, side), over(to, side), piece);
  return {
    girth: (from, to, side) => chord * between(from, to, side, lengthOf(side)),
    area: (from, to) => chord ** 2 * (between(from, to, 1, under(1)) - between(from, to, -1, under(-1))),
    height: (x) => chord * (point(over(x, 1), 1)[1] - point(over(x, -1), -1)[1]),
  };
}
