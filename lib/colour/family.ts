import type { Lab } from './lab'

/** Colour families, as one goes round them when choosing: from the neutrals through the hues. */
export const colourFamilies = [
  'white',
  'grey',
  'black',
  'pink',
  'red',
  'orange',
  'brown',
  'yellow',
  'olive',
  'green',
  'blue-green',
  'blue',
  'purple',
] as const
export type ColourFamily = (typeof colourFamilies)[number]

/** The family a word names, or null. */
export const familyNamed = (word: string | null): ColourFamily | null => colourFamilies.find((family) => family === word) ?? null

/** The angle of hue, in degrees from 0 (pinkish red) through 90 (yellow) up to 360. */
export const hueDegrees = ({ a, b }: Lab): number => ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360

/**
 * The family a colour is called by, from its lightness, chroma and hue.
 *
 * The borders were set by hand between the 267 centroids of the ISCC–NBS names (K. L. Kelly and D. B. Judd, "Color: Universal Language
 * and Dictionary of Names", NBS Special Publication 440, 1976), and then shifted, for strong colours that no centroid stands for, by the
 * named colours of the web and the average colours of a large survey (Y. Kim, K. Thayer, G. Silva and J. Heer, EuroVis 2019). Two of
 * the names' nouns are not families here: violets are purple, and bluish green and greenish blue together are blue-green.
 *
 * Measured (tests/published/colour-families.test.ts): 264 of the 267 centroids; all 11 basic terms of the survey's averages and its
 * violet; 63 of the 80 web names that end in a basic term; and of 566 names people gave in another survey, looked at only in sum, 450, or
 * 468 where blue-green is taken for a blue or a green. The rest are mostly dull and in-between colours, on which people differ among
 * themselves: a person's own word for a thread goes before this one.
 */
export function familyOf({ L, a, b }: Lab): ColourFamily {
  const neutral = neutralOf(L, a, b)
  if (neutral) return neutral
  const chroma = Math.hypot(a, b)
  const hue = hueDegrees({ L, a, b })
  const redFrom = L < 25 ? 340 : L >= 55 && chroma >= 40 ? 338 : 344
  if (hue >= redFrom) return warmOf(L, chroma, hue - 360)
  if (hue < 74.5) return warmOf(L, chroma, hue)
  if (hue < 110) return goldenOf(L, chroma, hue)
  if (hue < 180) return hue < 116 && L < 59 ? 'olive' : 'green'
  if (hue < 234 - 0.6 * Math.max(0, L - 62)) return 'blue-green'
  const purpleFrom = 305 - 0.2 * Math.max(0, L - 20) + 0.1 * Math.max(0, chroma - 45)
  return hue < purpleFrom ? 'blue' : 'purple'
}

/** What the eye takes for neutral lies a little to the yellow of a = b = 0, the more so the lighter. */
function neutralOf(L: number, a: number, b: number): 'white' | 'grey' | 'black' | null {
  const from = (neutralB: number) => Math.hypot(a, b - neutralB)
  if (L >= 89) return from(4) <= 9.3 ? 'white' : null
  if (L >= 50) return from(2) <= (L < 82 ? 7.2 : 5.8) || (Math.abs(a) < 3 && b >= 0 && b <= 11.5) ? 'grey' : null
  if (L >= 20) return from(1) <= (L < 30 ? 5.8 : 6.3) ? 'grey' : null
  return from(1) <= 4.7 ? 'black' : null
}

/** From purplish red to orange yellow; `hue` from −22 to 74.5. */
function warmOf(L: number, chroma: number, hue: number): 'pink' | 'red' | 'orange' | 'brown' {
  const isPale = L >= 64 || (L >= 58 && chroma >= 18)
  const isHot = L >= 53 && chroma >= 60 && hue < 15
  if (isHot || (isPale && chroma < 70 && hue < (chroma < 16 ? 72 : 50))) return 'pink'
  const redTo = 17 + 0.3 * L + (L < 38 ? 0.6 : 0.27) * Math.max(0, chroma - 28)
  if (hue < redTo) return 'red'
  return L >= 38 && L + chroma >= 85 + (hue - 45) / 2 ? 'orange' : 'brown'
}

/** From orange yellow to greenish yellow. */
function goldenOf(L: number, chroma: number, hue: number): 'yellow' | 'brown' | 'olive' {
  if (L >= 58 && (hue >= 88 || L + chroma >= 109)) return 'yellow'
  return hue < 92 ? 'brown' : 'olive'
}

/** The family a thread is filed under: a person's word, else its colour's; null where neither is known. */
export const filedFamily = ({ lab, family }: { lab: Lab | null; family: ColourFamily | null }): ColourFamily | null =>
  family ?? (lab && familyOf(lab))

/** Below this chroma a hue is chance: such colours go by lightness alone. Chosen by eye. */
const leastChroma = 5

/**
 * The order for choosing by colour: by family, then around the circle of hues in steps of ten degrees, light before dark within one;
 * what is nearly neutral by lightness. Colours of no known family come last. Equal ones are left to the caller.
 */
export function compareForChoosing(
  one: { lab: Lab | null; family: ColourFamily | null },
  other: { lab: Lab | null; family: ColourFamily | null },
): number {
  const keys = [one, other].map((colour) => {
    const family = filedFamily(colour)
    const { lab } = colour
    const hasHue = lab !== null && Math.hypot(lab.a, lab.b) >= leastChroma
    return [
      family ? colourFamilies.indexOf(family) : colourFamilies.length,
      // The circle is cut open at 330°, so that the reds on both sides of 0 stay together.
      hasHue ? Math.floor(((hueDegrees(lab) + 30) % 360) / 10) : -1,
      lab ? -lab.L : 1,
    ]
  })
  const [a, b] = keys as [number[], number[]]
  return a.reduce((order, key, index) => order || key - (b[index] as number), 0)
}
