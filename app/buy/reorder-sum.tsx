import { numberText } from '#language/figures'
import type { ReorderCheck } from '#lib/stock/reorder'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { counted } from '#words/amounts'

const figure = (value: number, digits = 2) => numberText(Number(value.toFixed(digits)))

const sourceNotes: Record<ReorderCheck['source'], string> = {
  owner: 'By the rule set for this owner.',
  thread: 'By the number to keep that stands with the thread.',
  lots: 'By the usual two of a line whose lots matter; set another where that is wrong.',
}

/** When to buy, what there is, and how many that makes, written out in put-ups. */
export function ReorderSum({ check }: { check: ReorderCheck }) {
  const { rule, point } = check
  const pointRows: SumRow[] =
    rule.kind === 'point' && point
      ? [
          {
            label: 'Sold while an order is on its way',
            how: `${figure(rule.demandHundredths / 100)} a week × ${counted(rule.leadWeeks, 'week')}`,
            figure: figure(point.leadPutUps),
          },
          {
            label: 'Kept for a busy time',
            how: `${check.serviceFactor} × ${figure(rule.spreadHundredths / 100)} × √${rule.leadWeeks}`,
            figure: figure(point.safetyPutUps),
          },
          {
            label: 'Buy at',
            how: `${figure(point.leadPutUps + point.safetyPutUps)}, rounded up`,
            figure: point.putUps,
            kind: 'end',
          },
        ]
      : [{ label: 'Buy when fewer are free than', figure: check.thresholdPutUps, kind: 'end' }]
  const less = (label: string, putUps: number): SumRow[] => (putUps > 0 ? [{ label, figure: `− ${putUps}` }] : [])
  const wantedRows: SumRow[] = check.isDue
    ? [
        ...(rule.kind === 'point'
          ? [
              {
                label: 'Buy up to',
                how: `${check.thresholdPutUps} + ${counted(rule.coverWeeks, 'week')} × ${figure(rule.demandHundredths / 100)}`,
                figure: check.upToPutUps,
              },
            ]
          : [{ label: 'Buy up to', figure: check.upToPutUps }]),
        { label: 'There is', figure: check.positionPutUps < 0 ? `+ ${-check.positionPutUps}` : `− ${check.positionPutUps}` },
        { label: 'Wanted', figure: check.wantedPutUps, kind: 'rule' as const },
        {
          label: 'To order',
          how: rule.packPutUps > 1 ? `${counted(check.packs, 'box')} of ${rule.packPutUps}` : undefined,
          figure: check.orderPutUps,
          kind: 'end' as const,
        },
      ]
    : []
  return (
    <Sums>
      <Sum title="When to buy" rows={pointRows} note={sourceNotes[check.source]} />
      <Sum
        title="What there is"
        rows={[
          { label: 'Owned, whole', figure: check.ownedPutUps },
          ...less('Out', check.outPutUps),
          ...less('Promised to projects', check.promisedPutUps),
          { label: 'Free', figure: check.freePutUps, kind: 'rule' },
          ...less('Promised beyond what is there', check.unmetPutUps),
          ...(check.onOrderPutUps > 0 ? [{ label: 'On order', figure: `+ ${check.onOrderPutUps}` }] : []),
          { label: 'To go by', figure: check.positionPutUps, kind: 'end' },
        ]}
      />
      {wantedRows.length > 0 && <Sum title="How many" rows={wantedRows} />}
    </Sums>
  )
}
