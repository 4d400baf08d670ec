import { numberText } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import type { Bolt, Strip, StripPlan, YardagePlan } from '#lib/cloth/yardage'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { boltLength } from '#words/yardage'

type YardageSumsProps = { plan: YardagePlan; bolt: Bolt; copies: number; gapUm: number; unit: LengthUnit }

const figure = (value: number): string => numberText(value, { maximumFractionDigits: 2 })
const wayWords = (strip: Strip): string => (strip.way.isTurned ? 'turned' : 'upright')

/** How much to buy, written out: what the bolt holds across, and what so many rows come to. */
export function YardageSums({ plan, bolt, copies, gapUm, unit }: YardageSumsProps) {
  const length = (um: number) => formatClothLength(um, unit)
  const shown = shownRows(plan)
  if (!shown || !plan.best) return null
  const gap = gapUm > 0 ? ` + ${length(gapUm)} between` : ''
  const isMixed = shown.strips.length > 1
  const across: SumRow[] = [
    { label: 'The bolt', figure: length(bolt.widthUm) },
    { label: 'Selvedges', how: `2 × ${length(bolt.selvedgeUm)}`, figure: `− ${length(2 * bolt.selvedgeUm)}` },
    { label: 'Usable', figure: length(plan.usableWidthUm), kind: 'rule' },
    ...shown.strips.map((strip): SumRow => {
      const whole = (plan.usableWidthUm + gapUm) / (strip.way.widthUm + gapUm)
      return {
        label: isMixed ? `Across, ${wayWords(strip)}` : 'Across',
        how: `÷ ${length(strip.way.widthUm)}${gap}${Number.isInteger(whole) ? '' : ` = ${figure(whole)}, rounded down`}`,
        figure: strip.across,
        kind: 'end',
      }
    }),
  ]
  const [first] = shown.strips
  const along: SumRow[] = [
    ...(isMixed || !first
      ? []
      : [
          {
            label: 'Rows',
            how: `${figure(copies)} ÷ ${first.across}${copies % first.across === 0 ? '' : ` = ${figure(copies / first.across)}, rounded up`}`,
            figure: first.rows,
          },
        ]),
    ...shown.strips.map(
      (strip): SumRow => ({
        label: isMixed ? `Rows ${wayWords(strip)}` : 'Their length',
        how: `${strip.rows} × ${length(strip.way.heightUm)}${gap}`,
        figure: length(strip.rows * (strip.way.heightUm + gapUm)),
      }),
    ),
    ...(gapUm > 0 ? [{ label: 'No gap after the last', figure: `− ${length(gapUm)}` }] : []),
    { label: 'Straightening', how: 'cut to a thread', figure: `+ ${length(bolt.straighteningUm)}` },
    { label: 'Together', figure: length(shown.lengthUm + bolt.straighteningUm), kind: 'rule' },
    {
      label: 'To buy',
      how: `up to the next ${length(bolt.stepUm)}: ${figure(shown.toBuyUm / bolt.stepUm)} of them, ${boltLength(shown.toBuyUm, unit)}`,
      figure: length(shown.toBuyUm),
      kind: 'end',
    },
  ]
  return (
    <Sums>
      <Sum title="Across the bolt" rows={across} />
      <Sum
        title={plan.best.kind === 'apart' ? 'Along it, in rows' : 'Along it'}
        rows={along}
        note={
          plan.best.kind === 'apart'
            ? `Laid not in rows but as drawn they take ${length(plan.best.lengthUm)}, and ${length(plan.best.toBuyUm)} is enough.`
            : undefined
        }
      />
    </Sums>
  )
}

/** The rows the answer is, or would be if all had to lie in rows. */
function shownRows(plan: YardagePlan): StripPlan | null {
  const all = [plan.upright, plan.turned, plan.mixed].filter((one) => one !== null)
  const kind = plan.best?.kind
  if (kind === 'upright' || kind === 'turned' || kind === 'mixed') return plan[kind]
  return all.sort((a, b) => a.toBuyUm - b.toBuyUm)[0] ?? null
}
