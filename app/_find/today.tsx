import { say } from '#language/say'
import type { TodayLine } from '#lib/planning/days/today'
import { Link } from '#ui/link'
import { Unfold } from '#ui/unfold'
import { isPressing, todayHref, todayNote, todayWords } from '#words/today'
import s from './today.module.css'

/** Shown at once; the rest is unfolded. */
const shownAtOnce = 6

/** What the day holds, the most pressing first; a calm sentence where it holds nothing. */
export function Today({ lines }: { lines: readonly TodayLine[] }) {
  const [shown, rest] = [lines.slice(0, shownAtOnce), lines.slice(shownAtOnce)]
  return (
    <section className={s.today} aria-labelledby="today">
      <div className={s.head}>
        <h2 id="today">{say('Today')}</h2>
        <Link href="/week">{say('The week')}</Link>
      </div>
      {lines.length === 0 ? (
        <p className="quiet">{say('Nothing is due, nothing is out of its place, and nothing waits.')}</p>
      ) : (
        <>
          <Lines lines={shown} label={say('What the day holds')} />
          {rest.length > 0 && (
            <Unfold label={say('{rest, plural, one {# thing} other {# things}} more', { rest: rest.length })}>
              <Lines lines={rest} label={say('What else the day holds')} />
            </Unfold>
          )}
        </>
      )}
    </section>
  )
}

const Lines = ({ lines, label }: { lines: readonly TodayLine[]; label: string }) => (
  <ul className={s.lines} aria-label={label}>
    {lines.map((line) => (
      <li key={line.kind}>
        <Link href={todayHref(line)} className={isPressing(line.kind) ? 'do' : undefined}>
          {todayWords(line)}
        </Link>
        <small>{todayNote(line)}</small>
      </li>
    ))}
  </ul>
)
