import { noCount } from '#api/describe-cloth'
import { toThousandth } from '#api/quantities'
import { calculateRulerCount } from '#api/ruler-count'
import { endpoint, serve } from '#api/serve'
import { type CountedWay, countByRuler } from '#lib/cloth/ruler-count'
import { formatCount, perInch } from '#lib/quantity/count'

const describeWay = ({ count, readings, leastPerInch, mostPerInch, givePerInch, isApart }: CountedWay) => ({
  count,
  perInch: toThousandth(perInch(count)),
  perTenCm: toThousandth((count.threads * 100_000) / count.perUm),
  leastPerInch: toThousandth(leastPerInch),
  mostPerInch: toThousandth(mostPerInch),
  givePerInch: toThousandth(givePerInch),
  isApart,
  countAgain: readings.flatMap(({ isOutlier }, index) => (isOutlier ? [index] : [])),
})

const calculate = serve(calculateRulerCount, async ({ body }) => {
  const counted = countByRuler(body, body)
  if (!counted.ok) return noCount(counted.error)
  const { ends, picks, unevenPercent, squareness, nominal } = counted.value
  return {
    ends: describeWay(ends),
    picks: describeWay(picks),
    countText: formatCount(ends.count, picks.count),
    unevenPercent: toThousandth(unevenPercent),
    squareness,
    nominal,
    certainty: 'measured' as const,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
