import { formatDate } from '#language/day'
import type { Deadline } from '#lib/planning/pace/finish-dates'
import type { Outlook } from '#lib/planning/pace/project-pace'
import type { WorkUnit } from '#lib/project/work-log'
import { addDays } from '#lib/quantity/day'
import { Sum, type SumRow } from '#ui/sum'
import { counted } from '#words/amounts'
import { amountWords, paceHeads } from '#words/work'

type DateSumProps = { outlook: Outlook; of: { unit: WorkUnit; left: number | null; deadline: Deadline | null } }

/** How the dates of a work come about at one pace. */
export function DateSum({ outlook, of }: DateSumProps) {
  const { kind, weeks, pace: mean, stitchedOn, daysAway, due } = outlook
  const { unit, left, deadline } = of
  const perWeek = amountWords(mean.amount / mean.weeks, unit)
  const rows: SumRow[] = [
    {
      label: 'Weeks for what is left',
      how: `${amountWords(left ?? 0, unit)} ÷ ${perWeek}, rounded up`,
      figure: counted(weeks, 'week'),
    },
    ...(daysAway > 0 ? [{ label: 'Away meanwhile', figure: counted(daysAway, 'day') }] : []),
    { label: 'Last stitch, from today', figure: formatDate(stitchedOn), kind: deadline ? 'rule' : 'end' },
  ]
  if (deadline && due) {
    const { finishingWeeks, bufferWeeks, dueOn } = deadline
    rows.push(
      { label: 'Due', figure: formatDate(dueOn) },
      { label: 'Finishing', figure: `− ${counted(finishingWeeks, 'week')}` },
      { label: 'In hand', figure: `− ${counted(bufferWeeks, 'week')}` },
      {
        label: 'Last stitch by',
        figure: formatDate(addDays(dueOn, -7 * (finishingWeeks + bufferWeeks))),
        kind: 'rule',
      },
      { label: 'Stitching', figure: `− ${counted(weeks, 'week')}` },
      ...(due.daysAway > 0 ? [{ label: 'Away before it', figure: `− ${counted(due.daysAway, 'day')}` }] : []),
      { label: 'Begin by', figure: formatDate(due.startBy), kind: 'end' },
    )
  }
  return <Sum title={`${paceHeads[kind]}: ${perWeek} a week`} rows={rows} />
}
