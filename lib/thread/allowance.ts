/**
 * What is allowed for thickness, slack, starts and ends, as a factor on the bare geometry. Ordinary is 1.2 for the thickness of the
 * cloth times 1.25 for some 4 in lost of each 18 in needleful. Common practice, no published source.
 */
export const allowanceProfiles = { 'solid blocks': 1.3, ordinary: 1.5, scattered: 1.8 } as const
export type AllowanceProfile = keyof typeof allowanceProfiles
export const allowanceProfileNames = Object.keys(allowanceProfiles) as [AllowanceProfile, ...AllowanceProfile[]]

export const defaultAllowance: number = allowanceProfiles.ordinary

/** One's own factor: from 1 (bare geometry) to 5, beyond which it is surely a slip. */
export const isAllowance = (factor: number): boolean => factor >= 1 && factor <= 5

/** What one design is reckoned with, where it has its own way; `hundredths` is the factor, 142 for 1.42. */
export type AllowanceChoice = { profile: AllowanceProfile } | { profile: 'own'; hundredths: number }

/** @returns the choice kept as two columns; null, to follow the settings, when there is none or it is no allowance. */
export function allowanceChoiceOf(profile: string | null, hundredths: number | null): AllowanceChoice | null {
  if (profile === 'own') return hundredths !== null && isAllowance(hundredths / 100) ? { profile, hundredths } : null
  const known = allowanceProfileNames.find((name) => name === profile)
  return known === undefined ? null : { profile: known }
}

/** @returns the factor a design is reckoned with: its own, else the settings'. */
export function allowanceOf(design: { allowance: AllowanceChoice | null }, settings: { allowance: number }): number {
  if (design.allowance === null) return settings.allowance
  return design.allowance.profile === 'own' ? design.allowance.hundredths / 100 : allowanceProfiles[design.allowance.profile]
}

/** What one colour of a finished piece took, its leftover measured or weighed. Lengths in tenths of a millimetre of one strand. */
export type AllowanceReading = {
  projectId: string
  usedStrandTenths: number
  /** The geometry alone, before any allowance. */
  plainStrandTenths: number
  /** Knots and beads' passes, which no allowance is on. */
  flatStrandTenths: number
}

/**
 * The factor one reading speaks for: (used − flat) ÷ plain.
 *
 * @throws {RangeError} if there is no plain length to divide by.
 */
export function factorOf({ usedStrandTenths, plainStrandTenths, flatStrandTenths }: AllowanceReading): number {
  if (!(plainStrandTenths > 0)) throw new RangeError(`factorOf: plain length ${plainStrandTenths}`)
  return (usedStrandTenths - flatStrandTenths) / plainStrandTenths
}

export type LearntAllowance = {
  /** The middle factor, to the nearest hundredth, ready to be used. */
  factor: number
  /** The smallest and the largest factor, and between which the middle half of them lie. */
  least: number
  most: number
  lowerQuarter: number
  upperQuarter: number
  /** How many colours it comes from, and of how many finished pieces. */
  colourCount: number
  pieceCount: number
}

/** With fewer one cannot tell a slip from a habit. */
export const fewestReadings = 3

/**
 * A person's own allowance by what her finished pieces really took.
 *
 * The median of the readings' factors. The ratio of the sums would follow the one large colour of which a skein was forgotten on the
 * scales; the median does not move far until half the readings are wrong, and a person can see that it is the middle of the list. A
 * reading below 1 or above 5 (see `isAllowance`) cannot be true and is left out.
 *
 * @returns null under three readings that can be true.
 */
export function learnAllowance(readings: readonly AllowanceReading[]): LearntAllowance | null {
  const believed = readings.filter((reading) => isAllowance(factorOf(reading)))
  if (believed.length < fewestReadings) return null
  const factors = believed.map(factorOf).sort((a, b) => a - b)
  return {
    factor: Math.round(quantile(factors, 0.5) * 100) / 100,
    least: quantile(factors, 0),
    most: quantile(factors, 1),
    lowerQuarter: quantile(factors, 0.25),
    upperQuarter: quantile(factors, 0.75),
    colourCount: believed.length,
    pieceCount: new Set(believed.map(({ projectId }) => projectId)).size,
  }
}

/** The value so far along a sorted list, straight between neighbours. */
function quantile(sorted: readonly number[], share: number): number {
  const at = (sorted.length - 1) * share
  const below = sorted[Math.floor(at)] as number
  const above = sorted[Math.ceil(at)] as number
  return below + (above - below) * (at - Math.floor(at))
}
