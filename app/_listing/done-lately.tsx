import { say } from '#language/say'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { dayOf } from '#words/date'
import s from './bulk.module.css'

type DoneLatelyProps = {
  edits: readonly { id: string; at: Date; who: string | null; what: string; isUndone: boolean }[]
  hrefOf: (id: string) => string
}

/** Changes made to many at once, each leading to where it can be taken back. */
export function DoneLately({ edits, hrefOf }: DoneLatelyProps) {
  if (edits.length === 0) return null
  return (
    <Section title={say('Done lately')}>
      <ul className={s.edits}>
        {edits.map(({ id, at, who, what, isUndone }) => (
          <li key={id}>
            <Link href={hrefOf(id)}>{what}</Link>
            <span className="quiet">
              {dayOf(at)}
              {who && `, ${who}`}
              {isUndone && say(', taken back')}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}
