import 'server-only'
import { readScanned, type ScannedNoun, shownText } from '#lib/label/read-scanned'
import { textKey } from '#lib/quantity/text-key'
import { database } from '../client'
import { findMergedInto } from '../merging/merging'
import { findBecome, type LabelLookUp, lookUpLabel } from '../place/look-up-label'
import type { PlaceTag } from '../place/place-rows'
import { findBarcodeThreadId } from '../thread/barcodes'
import { findThreadNamed, listThreadsCalled, type ThreadNamed } from '../thread/find-thread'

/** Something a code or a typed text means. */
export type ScannedThing =
  | { noun: 'place'; id: string; place: PlaceTag }
  | { noun: 'thread'; id: string; thread: ThreadNamed }
  | { noun: 'chart' | 'project'; id: string; title: string }
  | { noun: 'cloth'; id: string; label: string | null; name: string; colourName: string | null }

export type ScannedAnswer = {
  /** By what it was found: the link on one of our labels, bars of a thread, the words on a label, a code; or not at all. */
  how: 'link' | 'bars' | 'words' | 'none'
  /** As it may be shown; empty for a link of ours. */
  text: string
  things: ScannedThing[]
  /** What the words meant on an old label; null for a link or bars. */
  old: LabelLookUp | null
}

/** Threads one code may name; more makers than these use it. */
const mostThings = 40

/** What a scanned or typed text means, looked up on record: nothing outside of it is ever gone to. */
export async function findScanned(given: string): Promise<ScannedAnswer> {
  const scanned = readScanned(given)
  if (scanned.kind === 'link') {
    const thing = await findThing(scanned.noun, scanned.id)
    return { how: thing ? 'link' : 'none', text: thing ? '' : shownText(given), things: thing ? [thing] : [], old: null }
  }
  const { text } = scanned
  if (text === '') return { how: 'none', text, things: [], old: null }
  const threadId = await findBarcodeThreadId(text)
  const barred = threadId === null ? null : await findThreadNamed(threadId)
  if (barred) return { how: 'bars', text, things: [{ noun: 'thread', id: barred.id, thread: barred }], old: null }
  const [old, threads, pieces] = await Promise.all([
    lookUpLabel(text),
    listThreadsCalled(text),
    database().prisma.clothPiece.findMany({
      where: { labelKey: textKey(text), goneAt: null },
      select: clothColumns,
      orderBy: { id: 'asc' },
      take: mostThings,
    }),
  ])
  const things: ScannedThing[] = [
    ...(old.place ? [{ noun: 'place' as const, id: old.place.id, place: old.place }] : []),
    ...threads.slice(0, mostThings).map((thread) => ({ noun: 'thread' as const, id: thread.id, thread })),
    ...pieces.map((piece) => ({ noun: 'cloth' as const, ...piece })),
  ]
  return { how: things.length > 0 || old.former.length > 0 ? 'words' : 'none', text, things, old }
}

const clothColumns = { id: true, label: true, name: true, colourName: true } as const

async function findThing(noun: ScannedNoun, id: string): Promise<ScannedThing | null> {
  const { prisma } = database()
  const here = { id, goneAt: null }
  switch (noun) {
    case 'place': {
      const placeId = (await findBecome(id))?.id ?? id
      const place = await prisma.place.findFirst({
        where: { id: placeId, goneAt: null },
        select: { id: true, label: true, name: true, kind: true },
      })
      return place && { noun, id: place.id, place: place as PlaceTag }
    }
    case 'thread': {
      const thread = await findThreadNamed(id)
      if (thread) return { noun, id, thread }
      const into = await findMergedInto('thread', id)
      return into && findThing('thread', into.keptId)
    }
    case 'chart': {
      const chart = await prisma.chart.findFirst({ where: here, select: { title: true } })
      if (chart) return { noun, id, title: chart.title }
      // Its label is still on the paper: it means the chart that has its copies now.
      const into = await findMergedInto('chart', id)
      return into && findThing('chart', into.keptId)
    }
    case 'cloth': {
      const piece = await prisma.clothPiece.findFirst({ where: here, select: clothColumns })
      return piece && { noun, ...piece }
    }
    case 'project': {
      const project = await prisma.project.findFirst({ where: here, select: { design: { select: { title: true } } } })
      return project && { noun, id, title: project.design.title }
    }
  }
}
