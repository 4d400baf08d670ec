import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadStory } from '#lib/db/movement/thread-story'
import type { ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { PlaceLabel } from '#trade/place-label'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { dayOf } from '#words/date'
import { reasonSaid } from '#words/journal'
import { byDay, describeMovement, movementsToTell } from '../words'
import t from './thread.module.css'

type FormerHomesProps = { thread: ThreadPage; story: ThreadStory }

/** Where it lived before, for whoever stands before an old label or an old list. */
export function FormerHomes({ thread, story }: FormerHomesProps) {
  if (story.formerHomes.length === 0) return null
  const homesOf = (batchIds: readonly string[]) => [
    ...new Set(thread.batches.flatMap(({ batch, home }) => (batchIds.includes(batch.id) && home ? [home.label] : []))),
  ]
  return (
    <Section title={say('Where it lived before')} id="before" note={say('An old label or an old list still says so.')}>
      <ul className={t.before}>
        {story.formerHomes.map(({ place, until, batchIds }) => {
          const now = homesOf(batchIds)
          return (
            <li key={place.id}>
              <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway />
              <span>
                {say('until {until}{rest}', {
                  until: dayOf(until),
                  rest:
                    now.length > 0 ? say('; lives in {now} now', { now: listed(now) }) : say('; it has no place of its own now'),
                })}
              </span>
            </li>
          )
        })}
      </ul>
    </Section>
  )
}

type StoryProps = {
  thread: ThreadPage
  story: ThreadStory
  unit: ThreadLengthUnit
  hrefForPage: (page: number) => string
}

/** The journal, day by day in sentences, the latest first. */
export function StorySection({ thread, story, unit, hrefForPage }: StoryProps) {
  const words = { strands: thread.line.strands, unit, putUpWord: thread.line.putUpWord }
  const days = byDay(movementsToTell(story.lines))
  return (
    <Section title={say('Its story')} id="story" note={story.lines.length > 0 ? say('The latest first.') : undefined}>
      {days.length === 0 ? (
        <p className="quiet">{say('Nothing has come in or gone out yet.')}</p>
      ) : (
        <ol className={t.story}>
          {days.map(({ day, dateTime, movements }) => (
            <li key={dateTime}>
              <time dateTime={dateTime}>{day}</time>
              <div>
                {movements.map((movement) => (
                  <p key={movement.id}>
                    {describeMovement(movement, words)}
                    {movement.reason && `: ${reasonSaid(movement.reason, 'cm')}`}.
                    {movement.who && <span className="quiet"> {sayParts('By {who}.', { who: movement.who })}</span>}
                  </p>
                ))}
              </div>
            </li>
          ))}
        </ol>
      )}
      {story.pages > 1 && (
        <Pager
          page={story.page}
          pages={story.pages}
          hrefForPage={hrefForPage}
          shown={say('{days, plural, one {# day} other {# days}} on this page', { days: days.length })}
        />
      )}
    </Section>
  )
}
