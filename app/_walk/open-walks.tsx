import { say } from '#language/say'
import { listBuyLists } from '#lib/db/buying/queries'
import { listOpenWalks, listWalksOf } from '#lib/db/walk/queries'
import { Link } from '#ui/link'
import { getViewer } from '#viewer/viewer'
import { shopProgressWords } from '#words/buying'
import { progressWords, walkTitle } from '#words/walk'
import { SendWaiting } from '../_ticks/send-waiting'
import s from './open-walks.module.css'

/** Named at once; more are behind the link to all. */
const namedAtMost = 3

/**
 * Says which walks are open, to go on with one: "Pull for Seven Lanterns: 14 of 37"; and, where it is not about one project, which lists
 * to shop by. Nothing while none is.
 */
export async function OpenWalks({ projectId }: { projectId?: string }) {
  const { ownerIds } = await getViewer()
  const [walks, shopping] = await Promise.all([
    projectId ? listWalksOf(projectId) : listOpenWalks(ownerIds),
    projectId ? null : listBuyLists({ ownerIds, isOpen: true }, { offset: 0, limit: namedAtMost }),
  ])
  return (
    <>
      <SendWaiting />
      {walks.length > 0 && (
        <nav className={s.open} aria-label={say('Open walks')}>
          <svg className={s.mark} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
            <path
              d="M1.5 3.5 3.5 5.5 7 1.500M1.5 11.500l2 2 3.5-4M10 4h9M10 12h9"
              fill="none"
              stroke="currentColor"
              strokeWidth="var(--pen-line)"
            />
          </svg>
          <span>{walks.length === 1 ? say('A walk is open:') : say('{walks} walks are open:', { walks: walks.length })}</span>
          <ul>
            {walks.slice(0, namedAtMost).map((walk) => (
              <li key={walk.id}>
                <Link href={`/walks/${walk.id}`}>{walkTitle(walk)}</Link>, {progressWords(walk.progress)}
              </li>
            ))}
            {walks.length > namedAtMost && (
              <li>
                <Link href="/walks">{say('all of them')}</Link>
              </li>
            )}
          </ul>
        </nav>
      )}
      {shopping !== null && shopping.total > 0 && (
        <nav className={s.open} aria-label={say('Open lists to shop by')}>
          <svg className={s.mark} viewBox="0 0 20 16" width="20" height="16" aria-hidden="true">
            <path
              d="M3 5h14l-1.500 10h-11zM7 7V4a3 3 0 0 1 6 0v3"
              fill="none"
              stroke="currentColor"
              strokeWidth="var(--pen-line)"
            />
          </svg>
          <span>
            {shopping.total === 1
              ? say('A list to shop by is open:')
              : say('{total} lists to shop by are open:', { total: shopping.total })}
          </span>
          <ul>
            {shopping.lists.map((list) => (
              <li key={list.id}>
                <Link href={`/buy/lists/${list.id}`}>{list.title}</Link>, {shopProgressWords(list.progress)}
              </li>
            ))}
            {shopping.total > namedAtMost && (
              <li>
                <Link href="/buy/lists">{say('all of them')}</Link>
              </li>
            )}
          </ul>
        </nav>
      )}
    </>
  )
}
