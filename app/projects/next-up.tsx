import { formatDate } from '#language/day'
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
    <ul className={s.next} aria-label="What to stitch">
      {timers.map(({ project, startedAt }) => (
        <li key={project.id}>
          The timer of <Link href={`/projects/${project.id}#log`}>{project.title}</Link> runs since {momentWords(startedAt)}.
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
      return <>Nothing that is kitted or begun is in the rotation.</>
    case 'stays':
      return (
        <>
          Next in the rotation: still {named(next.projectId)}, {turnWords(next, rule.by)}.
        </>
      )
    case 'turn':
      return (
        <>
          Next in the rotation: <strong>{named(next.projectId)}</strong>
          {next.after && `, since ${titles.get(next.after.projectId)} had ${turnWords(next.after, rule.by)}`}.
        </>
      )
    case 'today':
      return (
        <>
          Today’s in the rotation: <strong>{several(next.projectIds)}</strong>.
        </>
      )
    case 'free-day':
      return (
        <>
          The rotation leaves today free. Next, on {formatDate(next.nextOn)}: {several(next.projectIds)}.
        </>
      )
    case 'no-days':
      return (
        <>
          The rotation goes by days of the week, and none is chosen yet: <Link href="/projects/rotation">choose them</Link>.
        </>
      )
  }
}
