import { formatDate } from '#language/day'
import { say } from '#language/say'
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
      label: say('Weeks for what is left'),
      how: say('{amount} ÷ {perWeek}, rounded up', { amount: amountWords(left ?? 0, unit), perWeek }),
      figure: counted(weeks, 'week'),
    },
    ...(daysAway > 0 ? [{ label: say('Away meanwhile'), figure: counted(daysAway, 'day') }] : []),
    { label: say('Last stitch, from today'), figure: formatDate(stitchedOn), kind: deadline ? 'rule' : 'end' },
  ]
  if (deadline && due) {
    const { finishingWeeks, bufferWeeks, dueOn } = deadline
    rows.push(
      { label: say('Due'), figure: formatDate(dueOn) },
      { label: say('Finishing'), figure: say('− {finishingWeeks, plural, one {# week} other {# weeks}}', { finishingWeeks }) },
      { label: say('In hand'), figure: say('− {bufferWeeks, plural, one {# week} other {# weeks}}', { bufferWeeks }) },
      {
        label: say('Last stitch by'),
        figure: formatDate(addDays(dueOn, -7 * (finishingWeeks + bufferWeeks))),
        kind: 'rule',
      },
      { label: say('Stitching'), figure: say('− {weeks, plural, one {# week} other {# weeks}}', { weeks }) },
      ...(due.daysAway > 0
        ? [
            {
              label: say('Away before it'),
              figure: say('− {daysAway, plural, one {# day} other {# days}}', { daysAway: due.daysAway }),
            },
          ]
        : []),
      { label: say('Begin by'), figure: formatDate(due.startBy), kind: 'end' },
    )
  }
  return <Sum title={say('{paceHeads}: {perWeek} a week', { paceHeads: paceHeads[kind], perWeek })} rows={rows} />
}
