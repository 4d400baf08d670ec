import { numberText } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { Bolt, Strip, StripPlan, YardagePlan } from '#lib/cloth/yardage'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { boltLength } from '#words/yardage'

type YardageSumsProps = { plan: YardagePlan; bolt: Bolt; copies: number; gapUm: number; unit: LengthUnit }

const figure = (value: number): string => numberText(value, { maximumFractionDigits: 2 })
const wayWords = (strip: Strip): string => (strip.way.isTurned ? say('turned') : say('upright'))

/** How much to buy, written out: what the bolt holds across, and what so many rows come to. */
export function YardageSums({ plan, bolt, copies, gapUm, unit }: YardageSumsProps) {
  const length = (um: number) => formatClothLength(um, unit)
  const shown = shownRows(plan)
  if (!shown || !plan.best) return null
  const gap = gapUm > 0 ? say(' + {length} between', { length: length(gapUm) }) : ''
  const isMixed = shown.strips.length > 1
  const across: SumRow[] = [
    { label: say('The bolt'), figure: length(bolt.widthUm) },
    { label: say('Selvedges'), how: `2 × ${length(bolt.selvedgeUm)}`, figure: `− ${length(2 * bolt.selvedgeUm)}` },
    { label: say('Usable'), figure: length(plan.usableWidthUm), kind: 'rule' },
    ...shown.strips.map((strip): SumRow => {
      const whole = (plan.usableWidthUm + gapUm) / (strip.way.widthUm + gapUm)
      return {
        label: isMixed ? say('Across, {way}', { way: wayWords(strip) }) : say('Across'),
        how: `÷ ${length(strip.way.widthUm)}${gap}${Number.isInteger(whole) ? '' : say(' = {figure}, rounded down', { figure: figure(whole) })}`,
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
            label: say('Rows of them'),
            how: `${figure(copies)} ÷ ${first.across}${copies % first.across === 0 ? '' : say(' = {figure}, rounded up', { figure: figure(copies / first.across) })}`,
            figure: first.rows,
          },
        ]),
    ...shown.strips.map(
      (strip): SumRow => ({
        label: isMixed ? say('Rows {way}', { way: wayWords(strip) }) : say('Their length'),
        how: `${strip.rows} × ${length(strip.way.heightUm)}${gap}`,
        figure: length(strip.rows * (strip.way.heightUm + gapUm)),
      }),
    ),
    ...(gapUm > 0 ? [{ label: say('No gap after the last'), figure: `− ${length(gapUm)}` }] : []),
    { label: say('Straightening'), how: say('cut to a thread'), figure: `+ ${length(bolt.straighteningUm)}` },
    { label: say('Together'), figure: length(shown.lengthUm + bolt.straighteningUm), kind: 'rule' },
    {
      label: say('To buy'),
      how: say('up to the next {length}: {figure} of them, {boltLength}', {
        length: length(bolt.stepUm),
        figure: figure(shown.toBuyUm / bolt.stepUm),
        boltLength: boltLength(shown.toBuyUm, unit),
      }),
      figure: length(shown.toBuyUm),
      kind: 'end',
    },
  ]
  return (
    <Sums>
      <Sum title={say('Across the bolt')} rows={across} />
      <Sum
        title={plan.best.kind === 'apart' ? say('Along it, in rows') : say('Along it')}
        rows={along}
        note={
          plan.best.kind === 'apart'
            ? say('Laid not in rows but as drawn they take {length}, and {length2} is enough.', {
                length: length(plan.best.lengthUm),
                length2: length(plan.best.toBuyUm),
              })
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
