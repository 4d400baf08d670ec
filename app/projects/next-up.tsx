import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Rotation } from '#lib/db/planning/pace/rotation'
import type { RunningTimer } from '#lib/db/work/queries'
import { Link } from '#ui/link'
import { momentWords } from '#words/date'
import s from './projects.module.css'
import { turnWords } from './rotation-words'

type NextUpProps = { rotation: Rotation; timers: readonly RunningTimer[] }

/** What is next in the rotation, and at what somebody sits now. Nothing where there is neither. */
export function NextUp({ rotation, timers }: NextUpProps) {
  if (rotation.next.kind === 'empty' && timers.length === 0) return null
  return (
    <ul className={s.next} aria-label={say('What to stitch')}>
      {timers.map(({ project, startedAt }) => (
        <li key={project.id}>
          {sayParts('The timer of {title} runs since {moment}.', {
            title: <Link href={`/projects/${project.id}#log`}>{project.title}</Link>,
            moment: momentWords(startedAt),
          })}
        </li>
      ))}
      {rotation.next.kind !== 'empty' && (
        <li>
          <NextTurnLine rotation={rotation} />
        </li>
      )}
    </ul>
  )
}

/** "Next in the rotation: …", and why. */
export function NextTurnLine({ rotation: { next, members, rule } }: { rotation: Rotation }) {
  const titles = new Map(members.map(({ projectId, title }) => [projectId, title]))
  const named = (projectId: string) => <Link href={`/projects/${projectId}#log`}>{titles.get(projectId)}</Link>
  const several = (projectIds: readonly string[]) =>
    projectIds.map((projectId, at) => (
      <span key={projectId}>
        {at > 0 && ', '}
        {named(projectId)}
      </span>
    ))
  switch (next.kind) {
    case 'empty':
      return say('Nothing that is kitted or begun is in the rotation.')
    case 'stays':
      return sayParts('Next in the rotation: still {named}, {turn}.', {
        named: named(next.projectId),
        turn: turnWords(next, rule.by),
      })
    case 'turn':
      return sayParts('Next in the rotation: {named}{rest}.', {
        named: <strong>{named(next.projectId)}</strong>,
        rest:
          next.after &&
          say(', since {titles} had {turn}', { titles: titles.get(next.after.projectId), turn: turnWords(next.after, rule.by) }),
      })
    case 'today':
      return sayParts('Today’s in the rotation: {several}.', { several: <strong>{several(next.projectIds)}</strong> })
    case 'free-day':
      return sayParts('The rotation leaves today free. Next, on {nextOn}: {several}.', {
        nextOn: formatDate(next.nextOn),
        several: several(next.projectIds),
      })
    case 'no-days':
      return sayParts('The rotation goes by days of the week, and none is chosen yet: <link>choose them</link>.', {
        link: (words) => <Link href="/projects/rotation">{words}</Link>,
      })
  }
}
