import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ReorderCheck } from '#lib/stock/reorder'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { counted } from '#words/amounts'

const figure = (value: number, digits = 2) => numberText(Number(value.toFixed(digits)))

const sourceNotes: Record<ReorderCheck['source'], string> = sayings({
  owner: 'By the rule set for this owner.',
  thread: 'By the number to keep that stands with the thread.',
  lots: 'By the usual two of a line whose lots matter; set another where that is wrong.',
})

/** When to buy, what there is, and how many that makes, written out in put-ups. */
export function ReorderSum({ check }: { check: ReorderCheck }) {
  const { rule, point } = check
  const pointRows: SumRow[] =
    rule.kind === 'point' && point
      ? [
          {
            label: say('Sold while an order is on its way'),
            how: say('{figure} a week × {leadWeeks, plural, one {# week} other {# weeks}}', {
              figure: figure(rule.demandHundredths / 100),
              leadWeeks: rule.leadWeeks,
            }),
            figure: figure(point.leadPutUps),
          },
          {
            label: say('Kept for a busy time'),
            how: `${check.serviceFactor} × ${figure(rule.spreadHundredths / 100)} × √${rule.leadWeeks}`,
            figure: figure(point.safetyPutUps),
          },
          {
            label: say('Buy at'),
            how: say('{figure}, rounded up', { figure: figure(point.leadPutUps + point.safetyPutUps) }),
            figure: point.putUps,
            kind: 'end',
          },
        ]
      : [{ label: say('Buy when fewer are free than'), figure: check.thresholdPutUps, kind: 'end' }]
  const less = (label: string, putUps: number): SumRow[] => (putUps > 0 ? [{ label, figure: `− ${putUps}` }] : [])
  const wantedRows: SumRow[] = check.isDue
    ? [
        ...(rule.kind === 'point'
          ? [
              {
                label: say('Buy up to'),
                how: `${check.thresholdPutUps} + ${counted(rule.coverWeeks, 'week')} × ${figure(rule.demandHundredths / 100)}`,
                figure: check.upToPutUps,
              },
            ]
          : [{ label: say('Buy up to'), figure: check.upToPutUps }]),
        { label: say('There is'), figure: check.positionPutUps < 0 ? `+ ${-check.positionPutUps}` : `− ${check.positionPutUps}` },
        { label: say('Wanted'), figure: check.wantedPutUps, kind: 'rule' as const },
        {
          label: say('To order'),
          how:
            rule.packPutUps > 1
              ? say('{packs, plural, one {# box} other {# boxes}} of {packPutUps}', {
                  packs: check.packs,
                  packPutUps: rule.packPutUps,
                })
              : undefined,
          figure: check.orderPutUps,
          kind: 'end' as const,
        },
      ]
    : []
  return (
    <Sums>
      <Sum title={say('When to buy')} rows={pointRows} note={sourceNotes[check.source]} />
      <Sum
        title={say('What there is')}
        rows={[
          { label: say('Owned, whole'), figure: check.ownedPutUps },
          ...less(say('Out'), check.outPutUps),
          ...less(say('Promised to projects'), check.promisedPutUps),
          { label: say('Free'), figure: check.freePutUps, kind: 'rule' },
          ...less(say('Promised beyond what is there'), check.unmetPutUps),
          ...(check.onOrderPutUps > 0 ? [{ label: say('On order'), figure: `+ ${check.onOrderPutUps}` }] : []),
          { label: say('To go by'), figure: check.positionPutUps, kind: 'end' },
        ]}
      />
      {wantedRows.length > 0 && <Sum title={say('How many')} rows={wantedRows} />}
    </Sums>
  )
}
