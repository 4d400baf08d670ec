import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { readyCuts, type YardagePlan, type YardageRequest, yardageByWidth } from '#lib/cloth/yardage'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { boltLength } from '#words/yardage'

/** The length to buy off wider and narrower bolts. */
export function Widths({ asked, unit, chosenUm }: { asked: YardageRequest; unit: LengthUnit; chosenUm: number }) {
  const other = unit === 'in' ? 'cm' : 'in'
  return (
    <Section title={say('Other widths of bolt')} id="widths">
      <Ledger
        caption={say('The length to buy by the bolt’s width')}
        isTight
        rows={yardageByWidth(asked)}
        rowKey={({ widthUm }) => widthUm}
        columns={[
          {
            key: 'width',
            head: say('Bolt'),
            phone: 'lead',
            cell: ({ widthUm }) => (
              <>
                {widthUm === chosenUm ? <b>{formatClothLength(widthUm, unit)}</b> : formatClothLength(widthUm, unit)}{' '}
                <span className="quiet">{formatClothLength(widthUm, other)}</span>
              </>
            ),
          },
          {
            key: 'gives',
            head: say('Gives'),
            phone: 'line',
            cell: ({ plan }) =>
              plan.best
                ? say('{rest}, {gives, number} over', {
                    rest:
                      plan.best.kind === 'apart'
                        ? say('not in rows')
                        : say('{acrossOf} across', { acrossOf: acrossOf(plan, plan.best.kind) }),
                    gives: plan.best.gives - asked.copies,
                  })
                : say('the cut is wider than the cloth'),
          },
          {
            key: 'buy',
            head: say('To buy'),
            isNumeric: true,
            phone: 'side',
            cell: ({ plan }) =>
              plan.best
                ? `${formatClothLength(plan.best.toBuyUm, unit)}, ${boltLength(plan.best.toBuyUm, unit)}`
                : say('too narrow'),
          },
        ]}
      />
    </Section>
  )
}

const acrossOf = (plan: YardagePlan, kind: 'upright' | 'turned' | 'mixed'): string =>
  listed((plan[kind]?.strips ?? []).map(({ across }) => String(across)))

/** What comes out of fat quarters and fat eighths instead. */
export function Ready({ asked, unit }: { asked: YardageRequest; unit: LengthUnit }) {
  return (
    <Section
      title={say('Or ready cut')}
      id="ready-cut"
      note={say('Half a yard by half this bolt’s width, and half of that again.')}
    >
      <Ledger
        caption={say('What fat quarters and fat eighths give')}
        isTight
        rows={readyCuts(asked)}
        rowKey={({ name }) => name}
        columns={[
          {
            key: 'name',
            head: say('Put-up'),
            phone: 'lead',
            cell: ({ name, nominal }) => (
              <>
                {name === 'fat quarter' ? say('Fat quarter') : say('Fat eighth')}{' '}
                <span className="quiet">{formatClothSize(nominal, unit)}</span>
              </>
            ),
          },
          {
            key: 'squared',
            head: say('Squared'),
            isNumeric: true,
            phone: 'labelled',
            cell: ({ squared }) => formatClothSize(squared, unit),
          },
          {
            key: 'gives',
            head: say('Gives'),
            isNumeric: true,
            phone: 'labelled',
            cell: ({ squaredGives, nominalGives }) =>
              squaredGives === nominalGives
                ? squaredGives
                : say('{squaredGives}; {nominalGives} if nothing is lost', { squaredGives, nominalGives }),
          },
          {
            key: 'buy',
            head: say('To buy'),
            isNumeric: true,
            phone: 'side',
            cell: ({ toBuy }) => (toBuy === null ? say('too small') : say('buy {toBuy, number}', { toBuy })),
          },
        ]}
      />
    </Section>
  )
}
