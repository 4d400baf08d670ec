import type { ReactNode } from 'react'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { stitchSize } from '#lib/chart/design-size'
import { labToHex } from '#lib/colour/convert'
import type { Answers } from '#lib/db/answers/answers'
import type { Place } from '#lib/place/place'
import { textKey } from '#lib/quantity/text-key'
import type { SearchHit } from '#lib/search/search-index'
import { isOut } from '#lib/stock/batch'
import { Hoop, hoopWords } from '#trade/hoop'
import { OutlineToScale } from '#trade/outline-to-scale'
import { PlaceMark } from '#trade/place-mark'
import { ThreadBar } from '#trade/thread-bar'
import { TrayWord } from '#trade/tray'
import type { Hex } from '#trade/winding'
import { listed, threadLength } from '#words/amounts'
import { countWords } from '#words/cloth-count'
import { listStateWords } from '#words/cover'
import { givenName } from '#words/given'
import { notionKindWords, notionTitle } from '#words/notion'
import { pathWords } from '#words/place'
import s from './find.module.css'

export type Shown = {
  href: string
  mark: ReactNode
  title: ReactNode
  note: ReactNode
  state: ReactNode
  home: Place | undefined
  current: Place | undefined
}

/** An entry of the index as it stands now; null when it went meanwhile. */
export function shownOf(hit: SearchHit, answers: Answers, ownerIds: readonly string[]): Shown | null {
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
          facts.chartTitle === facts.design.title ? givenName(facts.kind) : `${givenName(facts.kind)}: ${facts.chartTitle}`,
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
        title: [piece.name, piece.colourName, countWords(piece.ends, piece.picks)].filter(Boolean).join(', '),
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
