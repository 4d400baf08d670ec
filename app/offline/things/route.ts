import { seenOwners } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import type { Answers, World } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type DeviceThing, makeDeviceIndex } from '#lib/search/device-index'
import { hoopWords } from '#trade/hoop'
import { notionKindWords, notionTitle } from '#words/notion'
import { threadName } from '#words/thread'

/** Made once a revision for each set of owners, as the answers are. */
const made = new WeakMap<Answers, { revision: number; text: string }>()

/** Everything that can be found, for a device to look things up in without a connection: where each thing is, and no prices or people. */
export async function GET(request: Request): Promise<Response> {
  const answers = await getAnswers()
  const { revision } = answers
  const seen = seenOwners(who())
  const etag = `"${revision}-${seen === null ? 'all' : [...seen].sort().join('.')}"`
  const headers = { etag, 'cache-control': 'private, no-cache' }
  if (request.headers.get('if-none-match')?.replace(/^W\//, '') === etag) return new Response(null, { status: 304, headers })
  let kept = made.get(answers)
  if (kept?.revision !== revision) {
    kept = { revision, text: JSON.stringify(indexOf(answers)) }
    made.set(answers, kept)
  }
  return new Response(kept.text, { headers: { ...headers, 'content-type': 'application/json' } })
}

function indexOf({ world }: Answers) {
  const places = [...world.places.values()].map(({ id, label, name }) => ({ id, label, name: name ?? '' }))
  return makeDeviceIndex(thingsOf(world), places)
}

function thingsOf(world: World): DeviceThing[] {
  const at = (thing: { currentPlaceId: string | null; homePlaceId: string | null }) => thing.currentPlaceId ?? thing.homePlaceId
  const designs = [...world.designs.values()].map(
    (facts): DeviceThing => ({
      ...{ noun: 'design', id: facts.design.id, title: facts.design.title, code: '', placeId: at(facts) },
      note: [
        ...facts.designerIds.map((id) => world.designers.get(id) ?? ''),
        facts.chartTitle === facts.design.title ? '' : facts.chartTitle,
      ]
        .filter(Boolean)
        .join(', '),
    }),
  )
  const threads = [...world.threads.values()].flatMap((thread): DeviceThing[] => {
    const line = world.lines.get(thread.lineId)
    if (!line) return []
    const held = (world.stock.batches.get(thread.id) ?? []).filter(
      ({ wholePutUps, partCertainty }) => wholePutUps > 0 || partCertainty !== 'none',
    )
    // The fullest batch answers; with a connection all of them do.
    const [first] = held.toSorted((a, b) => b.wholePutUps - a.wholePutUps || (a.id < b.id ? -1 : 1))
    const title = threadName({ makerName: line.makerName, code: thread.code, name: thread.name })
    return [
      {
        ...{ noun: 'thread', id: thread.id, title, note: line.name, code: thread.code },
        placeId: first ? at(first) : null,
      },
    ]
  })
  const pieces = world.pieces.map(
    (piece): DeviceThing => ({
      ...{ noun: 'cloth', id: piece.id, title: [piece.name, piece.colourName].filter(Boolean).join(', ') },
      ...{ note: piece.label ?? '', code: piece.label ?? '', placeId: at(piece) },
    }),
  )
  const notions = [...world.notions.values()].map(
    (notion): DeviceThing => ({
      ...{ noun: 'notion', id: notion.id, title: notionTitle(notion), note: notionKindWords[notion.kind].one },
      ...{ code: '', placeId: at(notion) },
    }),
  )
  const places = [...world.places.values()].map(
    (place): DeviceThing => ({
      ...{ noun: 'place', id: place.id, title: place.label, note: place.name ?? '', code: place.label, placeId: place.id },
    }),
  )
  const projects = [...world.projects.values()].flatMap((project): DeviceThing[] => {
    const title = world.designs.get(project.designId)?.design.title
    if (title === undefined) return []
    return [
      {
        ...{ noun: 'project', id: project.id, title, code: '', placeId: project.placeId },
        note: hoopWords[project.status],
      },
    ]
  })
  return [...threads, ...pieces, ...notions, ...places, ...projects, ...designs]
}
