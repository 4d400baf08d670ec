const radians = Math.PI / 180
const pow25to7 = 25 ** 7
const cos30 = Math.cos(30 * radians)
const cos6 = Math.cos(6 * radians)
const sin6 = Math.sin(6 * radians)
const cos63 = Math.cos(63 * radians)
const sin63 = Math.sin(63 * radians)
/** Directions whose unit vectors add up to less than this are as good as opposite: their bisector would be of rounding errors. */
const leastSum = 0.1

/** C⁷/(C⁷ + 25⁷), under its root: near 0 for a grey, near 1 for a strong colour. */
export function chromaRoot(chroma: number): number {
  const square = chroma * chroma
  const power7 = square * square * square * chroma
  return Math.sqrt(power7 / (power7 + pow25to7))
}

/** 1 + G: what a is stretched by, for a pair of mean chroma C̄; 1.5 for greys, next to 1 from 50 on. */
export const aStretch = (meanChroma: number): number => 1 + (1 - chromaRoot(meanChroma)) / 2

/** S_L: how much less a step of lightness counts, away from L = 50, where it is 1; at most about 1.75, at L = 0 and 100. */
export function lightnessScale(meanL: number): number {
  const square = (meanL - 50) * (meanL - 50)
  return 1 + (0.015 * square) / Math.sqrt(20 + square)
}

/** An angle of hue, from 0 up to a whole turn. */
function turnOf(x: number, y: number): number {
  const angle = Math.atan2(y, x)
  return angle < 0 ? angle + 2 * Math.PI : angle
}

/**
 * h̄′ and Δh′ by the paper's own steps, for hues that are nearly opposite. The formula jumps where they are exactly so, and on which side
 * of the jump a pair falls is a matter of the last bit: so the steps are taken as one reads them, powers included, and fall where other
 * plain readings of the paper do.
 */
function oppositeHues(a1: number, b1: number, a2: number, b2: number, meanChroma: number): { mean: number; apart: number } {
  const power7 = meanChroma ** 7
  const g = 0.5 * (1 - Math.sqrt(power7 / (power7 + pow25to7)))
  const hue1 = turnOf(a1 * (1 + g), b1)
  const hue2 = turnOf(a2 * (1 + g), b2)
  const apart = hue2 - hue1
  const mean = (hue1 + hue2) / 2
  if (Math.abs(apart) <= Math.PI) return { mean, apart }
  return { mean: mean - Math.PI, apart: apart > 0 ? apart - 2 * Math.PI : apart + 2 * Math.PI }
}

/** R_T: how the ellipses of equal difference lean among the blues; next to nothing elsewhere. */
function rotation(meanChroma: number, cosHue: number, sinHue: number): number {
  // Below 130° the exponential is under 3e-15.
  if (sinHue >= 0 && cosHue > -0.64) return 0
  const away = (turnOf(cosHue, sinHue) / radians - 275) / 25
  return -2 * chromaRoot(meanChroma) * Math.sin(60 * radians * Math.exp(-away * away))
}

/**
 * CIEDE2000 between two colours of CIELAB given by their figures, all weights 1. `c1` and `c2` are their chromas, √(a² + b²), which
 * whoever compares one colour with many works out once.
 *
 * Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and mathematical
 * observations", Color Research and Application 30(1), 2005, equations 2 to 22. Only the way to the same figures differs: the mean hue
 * h̄′ is the bisector of the two directions, so its sine and cosine come without an angle and those of its multiples from the addition
 * theorems, and ΔH′ = 2 √(C′₁C′₂) sin(Δh′/2) comes from the cross product. Where the two hues are nearly opposite the angles themselves
 * are taken, with the paper's own cases.
 */
export function ciede2000(
  l1: number,
  a1: number,
  b1: number,
  c1: number,
  l2: number,
  a2: number,
  b2: number,
  c2: number,
): number {
  const lightness = (l2 - l1) / lightnessScale((l1 + l2) / 2)
  const stretch = aStretch((c1 + c2) / 2)
  const x1 = a1 * stretch
  const x2 = a2 * stretch
  const chroma1 = Math.sqrt(x1 * x1 + b1 * b1)
  const chroma2 = Math.sqrt(x2 * x2 + b2 * b2)
  const meanChroma = (chroma1 + chroma2) / 2
  const chroma = (chroma2 - chroma1) / (1 + 0.045 * meanChroma)
  const product = chroma1 * chroma2
  // A grey has no hue to differ in.
  if (product === 0) return Math.sqrt(lightness * lightness + chroma * chroma)

  const sumX = x1 / chroma1 + x2 / chroma2
  const sumY = b1 / chroma1 + b2 / chroma2
  const sum = Math.sqrt(sumX * sumX + sumY * sumY)
  let cosHue = sumX / sum
  let sinHue = sumY / sum
  let deltaHue = (2 * (x1 * b2 - b1 * x2)) / (Math.sqrt(product) * sum)
  if (sum < leastSum) {
    const { mean, apart } = oppositeHues(a1, b1, a2, b2, (c1 + c2) / 2)
    cosHue = Math.cos(mean)
    sinHue = Math.sin(mean)
    deltaHue = 2 * Math.sqrt(product) * Math.sin(apart / 2)
  }

  const cos2 = cosHue * cosHue - sinHue * sinHue
  const sin2 = 2 * sinHue * cosHue
  const cos3 = cos2 * cosHue - sin2 * sinHue
  const sin3 = sin2 * cosHue + cos2 * sinHue
  const cos4 = cos2 * cos2 - sin2 * sin2
  const sin4 = 2 * sin2 * cos2
  const t =
    1 -
    0.17 * (cosHue * cos30 + sinHue / 2) +
    0.24 * cos2 +
    0.32 * (cos3 * cos6 - sin3 * sin6) -
    0.2 * (cos4 * cos63 + sin4 * sin63)
  const hue = deltaHue / (1 + 0.015 * meanChroma * t)
  return Math.sqrt(lightness * lightness + chroma * chroma + hue * hue + rotation(meanChroma, cosHue, sinHue) * chroma * hue)
}
