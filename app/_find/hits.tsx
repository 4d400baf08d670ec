import type { ReactNode } from 'react'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { stitchSize } from '#lib/chart/design-size'
import { labToHex } from '#lib/colour/convert'
import type { Answers } from '#lib/db/answers/answers'
import { listWhereabouts, type Whereabout } from '#lib/db/thread/thread-whereabouts'
import type { Place } from '#lib/place/place'
import { formatCount } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import type { SearchAnswer, SearchHit, SearchNoun } from '#lib/search/search-index'
import { isOut } from '#lib/stock/batch'
import { DrawerFront } from '#trade/drawer-front'
import { Hoop, hoopWords } from '#trade/hoop'
import { OutlineToScale } from '#trade/outline-to-scale'
import { PlaceLabel } from '#trade/place-label'
import { PlaceMark } from '#trade/place-mark'
import { ThreadBar } from '#trade/thread-bar'
import { TrayWord } from '#trade/tray'
import type { Hex } from '#trade/winding'
import { Link } from '#ui/link'
import { listed, threadLength } from '#words/amounts'
import { listStateWords } from '#words/cover'
import { dayOf } from '#words/date'
import { givenName } from '#words/given'
import { notionKindWords, notionTitle } from '#words/notion'
import { pathWords } from '#words/place'
import { heldWords } from '#words/stock'
import s from './find.module.css'

type Shown = {
  href: string
  mark: ReactNode
  title: ReactNode
  note: ReactNode
  state: ReactNode
  home: Place | undefined
  current: Place | undefined
}

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
  const best = exact ?? [lines, begun].find(({ length }) => length === 1)?.[0] ?? null
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

/** An entry of the index as it stands now; null when it went meanwhile. */
function shownOf(hit: SearchHit, answers: Answers, ownerIds: readonly string[]): Shown | null {
  const { world } = answers
  const id = hit.id.slice(hit.noun.length + 1)
  const placeOf = (placeId: string | null | undefined) => world.places.get(placeId ?? '')
  switch (hit.noun) {
    case 'chart':
      return null
    case 'design': {
      const facts = world.designs.get(id)
      if (!facts) return null
      const size = stitchSize(facts.design)
      const best = answers.coverage(ownerIds).answerFor(id)?.best ?? null
      const words = best && listStateWords(best)
      return {
        href: `/designs/${id}`,
        mark: size && <OutlineToScale widthStitches={size.width} heightStitches={size.height} longestStitches={300} box={36} />,
        title: <span className={`title ${s.work}`}>{facts.design.title}</span>,
        note: [
          listed(facts.designerIds.map((designerId) => world.designers.get(designerId) ?? '')),
          facts.chartTitle === facts.design.title ? facts.kind : `${facts.kind}: ${facts.chartTitle}`,
          size && say('{width} × {height} stitches', { width: size.width, height: size.height }),
          foundBy(
            facts.themeIds.map((themeId) => world.themes.get(themeId)?.name ?? ''),
            hit,
          ),
        ]
          .filter(Boolean)
          .join(', '),
        state: words ? (
          <TrayWord state={words.state} word={words.word} note={words.note} />
        ) : (
          <TrayWord state="unknown" word={say('No thread list')} />
        ),
        home: placeOf(facts.homePlaceId),
        current: placeOf(facts.currentPlaceId ?? facts.homePlaceId),
      }
    }
    case 'thread': {
      const thread = world.threads.get(id)
      const line = world.lines.get(thread?.lineId ?? '')
      if (!thread || !line) return null
      const free = answers.freeOf(id, ownerIds)
      const batches = answers
        .batchesOf(id, ownerIds)
        .filter((batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
        .sort((a, b) => Number(isOut(a)) - Number(isOut(b)) || b.wholePutUps - a.wholePutUps || (a.id < b.id ? -1 : 1))
      const length = threadLength(free.freeStrandTenths, line.strands, world.settings.threadUnit)
      const elsewhere = [
        ...(free.outStrandTenths > 0
          ? [
              say('{threadLength} out', {
                threadLength: threadLength(free.outStrandTenths, line.strands, world.settings.threadUnit),
              }),
            ]
          : []),
        ...(free.promisedStrandTenths > 0
          ? [
              say('{threadLength} promised', {
                threadLength: threadLength(free.promisedStrandTenths, line.strands, world.settings.threadUnit),
              }),
            ]
          : []),
      ].join(', ')
      return {
        href: `/threads/${id}`,
        mark: (
          <ThreadBar
            hexes={thread.lab ? [labToHex(thread.lab) as Hex] : []}
            dye={line.dyeing === 'solid' ? 'solid' : 'overdyed'}
          />
        ),
        title: (
          <>
            {line.makerName} <b>{thread.code}</b> {thread.name}
          </>
        ),
        note: [line.name, hit.match === 'close' && say('a close code, not the same')].filter(Boolean).join(', '),
        state:
          free.freeStrandTenths > 0 ? (
            <TrayWord state="enough" word={say('{length} free', { length })} note={elsewhere || null} />
          ) : free.isSomeHeld ? (
            <TrayWord state="unknown" note={elsewhere || null} />
          ) : free.ownedStrandTenths > 0 ? (
            <TrayWord state="elsewhere" word={say('None free')} note={elsewhere || null} />
          ) : (
            <TrayWord state="none" word={say('None held')} />
          ),
        home: placeOf(batches[0]?.homePlaceId),
        current: placeOf(batches[0]?.currentPlaceId ?? batches[0]?.homePlaceId),
      }
    }
    case 'cloth': {
      const piece = world.pieces.find((one) => one.id === id)
      if (!piece) return null
      return {
        href: `/cloth/${id}`,
        mark: <PlaceMark kind="shelf" width={34} />,
        title: [piece.name, piece.colourName, formatCount(piece.ends, piece.picks)].filter(Boolean).join(', '),
        note: `${piece.label ? `${piece.label}, ` : ''}${formatClothSize(piece, world.settings.lengthUnit)}${piece.isSquared ? say(', squared') : ''}${piece.isTurnable ? '' : say(', may not be turned')}`,
        state: (
          <TrayWord state={piece.isReserved ? 'elsewhere' : 'enough'} word={piece.isReserved ? say('Reserved') : say('Free')} />
        ),
        home: placeOf(piece.homePlaceId),
        current: placeOf(piece.currentPlaceId ?? piece.homePlaceId),
      }
    }
    case 'notion': {
      const notion = world.notions.get(id)
      if (!notion) return null
      const project = world.projects.get(notion.projectId ?? '')
      const title = project && world.designs.get(project.designId)?.design.title
      return {
        href: `/notions/${id}`,
        mark: <PlaceMark kind="box" width={34} />,
        title: notionTitle(notion),
        note: [notionKindWords[notion.kind].one, world.owners.get(notion.ownerId)].filter(Boolean).join(', '),
        state:
          notion.projectId === null ? (
            <TrayWord
              state={notion.count > 0 ? 'enough' : 'none'}
              word={notion.count > 0 ? `× ${notion.count}` : say('None left')}
            />
          ) : (
            <TrayWord
              state="elsewhere"
              word={say('× {count} in use', { count: notion.count })}
              note={title ? say('for {title}', { title }) : null}
            />
          ),
        home: placeOf(notion.homePlaceId),
        current: placeOf(notion.currentPlaceId ?? notion.homePlaceId),
      }
    }
    case 'place': {
      const place = world.places.get(id)
      if (!place) return null
      return {
        href: `/places/${id}`,
        mark: <PlaceMark kind={place.kind} width={34} />,
        title: place.name ? `${place.label}, ${place.name}` : place.label,
        note: pathWords(place, world.places),
        state: place.kind,
        home: place,
        current: place,
      }
    }
    case 'project': {
      const project = world.projects.get(id)
      if (!project) return null
      const place = placeOf(project.placeId)
      return {
        href: `/projects/${id}`,
        mark: <Hoop status={project.status} width={28} />,
        title: <span className={`title ${s.work}`}>{hit.title}</span>,
        note: [project.forWhom && say('for {forWhom}', { forWhom: project.forWhom }), project.note].filter(Boolean).join(', '),
        state: hoopWords[project.status],
        home: place,
        current: place,
      }
    }
  }
}

/** The themes that it was found by, where its title does not say why it is here. */
function foundBy(themes: readonly string[], { match, terms, title }: SearchHit): string {
  const has = (name: string) => {
    const words = textKey(name).split(/[^\p{L}\p{N}]+/u)
    return terms.some((term) => words.some((word) => word.startsWith(term)))
  }
  return match === 'words' && !has(title) ? listed(themes.filter(has)) : ''
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
