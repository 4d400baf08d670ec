import type { ReactNode } from 'react'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Answers } from '#lib/db/answers/answers'
import { listWhereabouts, type Whereabout } from '#lib/db/thread/thread-whereabouts'
import type { Place } from '#lib/place/place'
import { textKey } from '#lib/quantity/text-key'
import type { SearchAnswer, SearchHit, SearchNoun } from '#lib/search/search-index'
import { DrawerFront } from '#trade/drawer-front'
import { PlaceLabel } from '#trade/place-label'
import { Link } from '#ui/link'
import { dayOf } from '#words/date'
import { givenName } from '#words/given'
import { pathWords } from '#words/place'
import { heldWords } from '#words/stock'
import s from './find.module.css'
import { type Shown, shownOf } from './shown-hit'

type HitsProps = {
  answer: SearchAnswer
  /** What was asked. */
  words: string
  answers: Answers
  ownerIds: readonly string[]
}

const nounWords: Record<SearchNoun, string> = sayings({
  chart: 'Charts',
  design: 'Charts',
  thread: 'Threads',
  cloth: 'Cloth',
  notion: 'Notions',
  place: 'Places',
  project: 'Projects',
})

/** What was found, by noun, each with how it stands and where it is; a code or label met exactly comes first, large. */
export async function Hits({ answer, words, answers, ownerIds }: HitsProps) {
  const [first] = answer.hits
  const exact = first?.match === 'exact' ? first : onlyOneCalled(answer.hits, words)
  const groups = literalFirst(answer, words)
  // What Enter opens: only what can be meant. Charts are found by their designs, and are no line of their own.
  const lines = answer.hits.filter(({ noun }) => noun !== 'chart')
  const begun = lines.filter(({ title }) => textKey(title).startsWith(textKey(words)))
  const isOne = (hits: readonly SearchHit[]) => new Set(hits.map(({ title }) => textKey(title))).size === 1
  const best = exact ?? [lines, begun].find(isOne)?.[0] ?? null
  const largest = exact && shownOf(exact, answers, ownerIds)
  const threadIds = answer.hits.flatMap(({ id, noun }) => (noun === 'thread' ? id.slice('thread:'.length) : []))
  const whereabouts = await listWhereabouts(threadIds, ownerIds)
  const whereaboutsOf = ({ id, noun }: SearchHit) =>
    noun === 'thread' ? (whereabouts.get(id.slice('thread:'.length)) ?? []) : []
  return (
    <>
      {largest && (
        <Answer shown={largest} places={answers.world.places}>
          <ThreadWhereabouts list={whereaboutsOf(exact)} answers={answers} hit={exact} hasOwners={ownerIds.length > 1} />
        </Answer>
      )}
      {groups.map(({ noun, hits }) => {
        const rest = hits.filter((hit) => hit !== exact)
        if (rest.length === 0) return null
        return (
          <section key={noun} className={s.group} aria-label={nounWords[noun]}>
            <h2>
              {nounWords[noun]} <span>{rest.length}</span>
            </h2>
            <ul>
              {rest.map((hit) => {
                const shown = shownOf(hit, answers, ownerIds)
                const list = whereaboutsOf(hit)
                const isAnswer = list.length > 1 || list.some(({ isOut: isAway }) => isAway)
                return (
                  shown && (
                    <Hit key={hit.id} shown={shown} isBest={hit === best}>
                      {isAnswer && hit.match !== 'words' && (
                        <ThreadWhereabouts list={list} answers={answers} hit={hit} hasOwners={ownerIds.length > 1} />
                      )}
                    </Hit>
                  )
                )
              })}
            </ul>
          </section>
        )
      })}
    </>
  )
}

/** The one thing that is called just so, title, name of a place or label; null where several are, or none. */
function onlyOneCalled(hits: readonly SearchHit[], words: string): SearchHit | null {
  const called = hits.filter(({ noun, title }) => noun !== 'chart' && textKey(title) === textKey(words))
  return called.length === 1 ? (called[0] ?? null) : null
}

/** What has the words as they were typed comes before what only resembles them, among the groups and in each. */
function literalFirst({ groups }: SearchAnswer, words: string): SearchAnswer['groups'] {
  const asked = textKey(words)
    .replace(/['’]/gu, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !/\p{N}/u.test(word))
  const isLoose = ({ match, terms }: SearchHit) =>
    match === 'words' && !asked.every((word) => terms.some((term) => term.startsWith(word)))
  return groups
    .map(({ noun, hits }) => ({ noun, hits: hits.toSorted((a, b) => Number(isLoose(a)) - Number(isLoose(b))) }))
    .sort((a, b) => Number(a.hits.every(isLoose)) - Number(b.hits.every(isLoose)))
}

type AnswerProps = { shown: Shown; places: ReadonlyMap<string, Place>; children: ReactNode }

function Answer({ shown, places, children }: AnswerProps) {
  const { current, home } = shown
  return (
    <div className={s.answer}>
      <div>
        <Link className={s.name} href={shown.href} data-best>
          {shown.mark}
          <span>{shown.title}</span>
        </Link>
        <div>{shown.note}</div>
        <div className={s.path}>{shown.state}</div>
        {current && (
          <p className={s.path}>
            {pathWords(current, places)}
            {home && home.id !== current.id && say('; lives in {path}', { path: pathWords(home, places) })}
          </p>
        )}
        {children}
      </div>
      {current && (
        <DrawerFront
          label={current.label}
          kind={current.kind}
          href={`/places/${current.id}`}
          isAway={home && home.id !== current.id}
        />
      )}
    </div>
  )
}

type WhereaboutsProps = { list: readonly Whereabout[]; answers: Answers; hit: SearchHit; hasOwners: boolean }

/** Every batch of a thread: how much, in which drawer, or in whose bag and since when, and to whom it is promised. */
function ThreadWhereabouts({ list, answers, hit, hasOwners }: WhereaboutsProps) {
  const { world } = answers
  const threadId = hit.id.slice('thread:'.length)
  const line = world.lines.get(world.threads.get(threadId)?.lineId ?? '')
  if (list.length === 0 || !line) return null
  return (
    <ul className={s.batches} aria-label={say('Where each batch is')}>
      {list.map((one) => {
        const called = { strands: line.strands, putUpWord: one.putUpWord ?? line.putUpWord }
        const promisedElsewhere = one.promisedTo.filter(({ id }) => !one.inBagOf.some((project) => project.id === id))
        return (
          <li key={one.batchId}>
            {one.current ? (
              <PlaceLabel
                label={one.current.label}
                href={`/places/${one.current.id}`}
                livesIn={one.isOut ? one.home?.label : undefined}
              />
            ) : (
              <span className="quiet">{say('no place yet')}</span>
            )}
            <span>
              {heldWords(one, called, world.settings.threadUnit)}
              {one.lot && say(', lot {lot}', { lot: one.lot })}
              {hasOwners && `, ${one.ownerName}’s`}
              {one.isOut &&
                sayParts(', <b>out</b>{rest}', {
                  b: (words) => <b>{words}</b>,
                  rest: one.outSince && say(' since {outSince}', { outSince: dayOf(one.outSince) }),
                })}
              {one.inBagOf.length > 0 && sayParts(' in the bag of {projectLinks}', { projectLinks: projectLinks(one.inBagOf) })}
              {promisedElsewhere.length > 0 &&
                sayParts(', promised to {projectLinks}', { projectLinks: projectLinks(promisedElsewhere) })}
            </span>
          </li>
        )
      })}
    </ul>
  )
}

const projectLinks = (projects: readonly { id: string; title: string }[]) =>
  projects.map(({ id, title }, at) => (
    <span key={id}>
      {at > 0 && ', '}
      <Link href={`/projects/${id}`} className="title">
        {title}
      </Link>
    </span>
  ))

function Hit({ shown, isBest, children }: { shown: Shown; isBest: boolean; children: ReactNode }) {
  return (
    <li className={s.hit}>
      <span>{shown.mark}</span>
      <span className={s.main}>
        <Link href={shown.href} data-best={isBest || undefined}>
          {shown.title}
        </Link>
        <small>{shown.note}</small>
      </span>
      <span className={s.state}>{shown.state}</span>
      <span className={s.where}>
        {shown.current ? (
          <PlaceLabel
            label={shown.current.label}
            href={`/places/${shown.current.id}`}
            livesIn={shown.home && shown.home.id !== shown.current.id ? shown.home.label : undefined}
            note={givenName(shown.current.kind)}
          />
        ) : (
          <span className="quiet">{say('no place yet')}</span>
        )}
      </span>
      {children}
    </li>
  )
}

/** How many were found and how, in a sentence. */
export function foundWords(answer: SearchAnswer, words: string): string {
  if (answer.found === 0) return say('Nothing found for “{words}”.', { words })
  const shown = answer.found > answer.hits.length ? say(', the first {hits} shown', { hits: answer.hits.length }) : ''
  const anyWord = answer.hasAllWords ? '' : say(' Nothing has all these words; these have some.')
  return say(
    '{found, plural, one {# thing} other {# things}} found for “{words}”{shown}.{anyWord} Codes match exactly; near ones come after.',
    { found: answer.found, words, shown, anyWord },
  )
}
