import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { clashesOfPlan } from '#lib/db/loan/clashes'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { calendarDay } from '#words/date'
import { clashDays } from '#words/loan'

type PlanClashProps = {
  designId: string
  /** yyyy-mm-dd; null while no day is planned: then nothing is said, or with `asIfToday` today is asked. */
  plannedOn: string | null
  projectId?: string
  asIfToday?: boolean
}

/** That the chart is with somebody when the work is to be begun: with whom, and for how many days they overlap. */
export async function PlanClash({ designId, plannedOn, projectId, asIfToday = false }: PlanClashProps) {
  const today = calendarDay(new Date())
  const asked = plannedOn ?? (asIfToday ? today : null)
  const clashes = asked === null ? [] : await clashesOfPlan({ designId, plannedOn: asked, exceptProjectId: projectId }, today)
  if (clashes.length === 0) return null
  return (
    <Notice kind="caution" title={plannedOn ? say('The chart is out when this is to be begun') : say('The chart is out')}>
      {clashes.map(({ loanId, placeLabel, dueOn, clash }) => (
        <p key={loanId}>
          {sayParts('<link>With {placeLabel}</link>{rest}. {rest2}', {
            link: (words) => <Link href={`/loans/${loanId}`}>{words}</Link>,
            placeLabel,
            rest: dueOn && say(', due {dueOn}', { dueOn: formatDate(dueOn) }),
            rest2: plannedOn && say('Clash: {clashDays}.', { clashDays: clashDays(clash) }),
          })}
        </p>
      ))}
    </Notice>
  )
}
