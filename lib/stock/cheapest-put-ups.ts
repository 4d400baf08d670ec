/** One way a thread is sold. */
export type PutUpOffer = { putUpStrandTenths: number; priceMinor: number }

/** How many of each offer, in the order of the offers, and what they hold and cost together. */
export type PutUpMix = { putUps: number[]; strandTenths: number; priceMinor: number }

const mostOffers = 3
const mostPutUps = 2_000

/**
 * The cheapest way to buy at least a length: every single offer, and the cheapest mix of them. Worked out by trying all counts, so
 * it is exact; a mix has put-ups from different dye baths, so where all must be of one lot only the single ones will do.
 *
 * @param offers  At most 3.
 * @returns the singles in the order of the offers; the best mix by price, then the longer, then more of the earlier offer. It may be a
 *   single one.
 * @throws {RangeError} if there is no offer or are too many, a length is not above nought, a price is negative, or it takes over 2,000
 *   put-ups.
 */
export function cheapestPutUps(strandTenths: number, offers: readonly PutUpOffer[]): { singles: PutUpMix[]; best: PutUpMix } {
  if (offers.length === 0 || offers.length > mostOffers) throw new RangeError(`cheapestPutUps: ${offers.length} offers`)
  if (!(strandTenths > 0)) throw new RangeError(`cheapestPutUps: length ${strandTenths}`)
  for (const { putUpStrandTenths, priceMinor } of offers) {
    if (!(putUpStrandTenths > 0 && priceMinor >= 0)) throw new RangeError(`cheapestPutUps: ${putUpStrandTenths} at ${priceMinor}`)
    if (strandTenths / putUpStrandTenths > mostPutUps) throw new RangeError(`cheapestPutUps: over ${mostPutUps} put-ups`)
  }
  const sumOf = (putUps: number[]): PutUpMix => ({
    putUps,
    strandTenths: offers.reduce((sum, { putUpStrandTenths }, at) => sum + putUpStrandTenths * (putUps[at] as number), 0),
    priceMinor: offers.reduce((sum, { priceMinor }, at) => sum + priceMinor * (putUps[at] as number), 0),
  })
  const enough = (rest: number, at: number) => Math.max(0, Math.ceil(rest / (offers[at] as PutUpOffer).putUpStrandTenths))
  let best: PutUpMix | null = null
  const tryFrom = (at: number, rest: number, taken: number[]) => {
    if (at === offers.length - 1) {
      const mix = sumOf([...taken, enough(rest, at)])
      const isBetter =
        best === null ||
        mix.priceMinor < best.priceMinor ||
        (mix.priceMinor === best.priceMinor && mix.strandTenths > best.strandTenths)
      if (isBetter) best = mix
      return
    }
    for (let count = enough(rest, at); count >= 0; count--) {
      tryFrom(at + 1, rest - count * (offers[at] as PutUpOffer).putUpStrandTenths, [...taken, count])
    }
  }
  tryFrom(0, strandTenths, [])
  const singles = offers.map((_, at) => sumOf(offers.map((_other, index) => (index === at ? enough(strandTenths, at) : 0))))
  return { singles, best: best as unknown as PutUpMix }
}
