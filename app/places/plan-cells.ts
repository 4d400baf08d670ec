import { say } from '#language/say'
import type { PlaceContents, ThreadHere } from '#lib/db/place/contents'
import type { OutThing } from '#lib/db/place/list-out'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import type { PlaceKind } from '#lib/place/place'
import type { PlanCell } from '#trade/plan-from-above'
import { hexesOf } from '#words/colour'
import { dayOf } from '#words/date'
import { describeAmountBriefly } from './words'

/** What a compartment holds, or keeps a gap for: the batches of one or more threads. */
type Cellful = { key: string; position: string; threads: readonly ThreadHere[]; href?: string }

/** More cells than this are a list, not a drawer. */
const cellsDrawn = 160

/** A drawer's compartments when they are places of their own; what lies loose in the drawer itself is not among them. */
function cellsOfCompartments(
  drawer: PlaceRecord,
  compartments: readonly PlaceRecord[],
  threads: readonly ThreadHere[],
  out: readonly OutThing[],
): PlanCell[] {
  return compartments.map((place) =>
    planCell(
      {
        key: place.id,
        position: positionIn(drawer.label, place.label),
        threads: threads.filter(({ home }) => home?.id === place.id),
        href: `/places/${place.id}`,
      },
      out,
    ),
  )
}

/**
 * A drawer without compartments of its own: its threads in order, one after another, and what room is left.
 * Null when it is not to be drawn: nothing lives in it, or too much.
 */
function cellsOfDrawer(drawer: PlaceRecord, threads: readonly ThreadHere[], out: readonly OutThing[]): PlanCell[] | null {
  const byThread = new Map<string, ThreadHere[]>()
  for (const batch of threads) {
    if (batch.home?.id !== drawer.id) continue
    const batches = byThread.get(batch.threadId)
    if (batches) batches.push(batch)
    else byThread.set(batch.threadId, [batch])
  }
  const count = Math.max(byThread.size, drawer.capacity ?? 0)
  if (byThread.size === 0 || count > cellsDrawn) return null
  const filled = [...byThread].map(([threadId, batches]) => ({ key: threadId, threads: batches, href: `/threads/${threadId}` }))
  return Array.from({ length: count }, (_, index) => {
    const cell = filled[index] ?? { key: `empty ${index}`, threads: [] }
    return planCell({ ...cell, position: String(index + 1).padStart(2, '0') }, out)
  })
}

/** Kinds drawn with their threads one after another, when no compartment of their own is on the map. */
const drawnWithThreads: readonly PlaceKind[] = ['drawer', 'compartment', 'ring', 'box', 'bag', 'bin']
/** Kinds drawn with their charts, each in its slot. */
const drawnWithCharts: readonly PlaceKind[] = ['rack', 'box', 'shelf', 'folder', 'bag', 'bin', 'drawer']
/** Titles are long: more slots than this are a list. */
const chartsDrawn = 60

/** A place drawn from above: its compartments, else its threads in a row, else its charts in their slots. Null where a list says more. */
export function cellsOf(
  place: PlaceRecord,
  compartments: readonly PlaceRecord[],
  contents: Pick<PlaceContents, 'threads' | 'charts' | 'chartCount'>,
  out: readonly OutThing[],
): { cells: PlanCell[]; columns: number } | null {
  const threads =
    compartments.length > 0
      ? cellsOfCompartments(place, compartments, contents.threads, out)
      : drawnWithThreads.includes(place.kind)
        ? cellsOfDrawer(place, contents.threads, out)
        : null
  if (threads) return { cells: threads, columns: columnsFor(threads.length) }
  const charts = drawnWithCharts.includes(place.kind) ? cellsOfCharts(place, contents) : null
  return charts && { cells: charts, columns: Math.min(4, charts.length) }
}

/** Charts that live in a place, by title; one that is out leaves its slot empty. */
function cellsOfCharts(
  place: PlaceRecord,
  { charts, chartCount }: Pick<PlaceContents, 'charts' | 'chartCount'>,
): PlanCell[] | null {
  const living = charts.filter(({ home }) => home?.id === place.id)
  if (living.length === 0 || chartCount > chartsDrawn) return null
  return living.map((chart, index) => ({
    key: chart.id,
    position: String(index + 1).padStart(2, '0'),
    content: {
      title: chart.title,
      note: chart.designerNames[0] ?? chart.kind,
      quantity: chart.isOut || chart.copies === 1 ? undefined : `× ${chart.copies}`,
      href: `/charts/${chart.id}`,
      out: chart.isOut
        ? { where: [chart.current?.label, chart.outSince && dayOf(chart.outSince)].filter(Boolean).join(', ') }
        : undefined,
    },
  }))
}

/** How the first of a place's cells lie, where it is no drawer. */
export function edgeWords(kind: PlaceKind): string | undefined {
  if (kind === 'ring') return say('in their order on the ring')
  if (kind === 'rack' || kind === 'shelf') return say('left to right, as they stand')
  return kind === 'drawer' || kind === 'compartment' ? undefined : say('in order, seen from above')
}

function planCell({ key, position, threads, href }: Cellful, out: readonly OutThing[]): PlanCell {
  const [first] = threads
  if (!first) return { key, position }
  const gone = threads.every(({ isOut }) => isOut)
  const different = new Set(threads.map(({ threadId }) => threadId)).size
  const outThing = out.find(({ id, noun }) => noun === 'thread' && id === first.id)
  return {
    key,
    position,
    content: {
      title: first.code,
      note:
        different > 1
          ? say('and {different, plural, one {# other} other {# others}}', { different: different - 1 })
          : (first.name ?? first.makerName),
      quantity: gone ? undefined : describeAmountBriefly(threads.filter(({ isOut }) => !isOut)),
      href,
      hexes: hexesOf(first.lab),
      out: gone
        ? {
            where: [first.current?.label, first.outSince && dayOf(first.outSince)].filter(Boolean).join(', '),
            isDue: first.current?.kind === 'bag' && outThing?.projects.length === 0,
          }
        : undefined,
    },
  }
}

/** A compartment's label without its drawer's: T2.1-14 in T2.1 is 14. */
export function positionIn(drawerLabel: string, label: string): string {
  if (!label.toLowerCase().startsWith(drawerLabel.toLowerCase())) return label
  return label.slice(drawerLabel.length).replace(/^[\s\-./:]+/, '') || label
}

/** Compartments in a row, for want of knowing: eight in a full drawer, fewer in a small one. */
const columnsFor = (cells: number): number => (cells >= 24 ? 8 : cells >= 10 ? 5 : Math.max(1, Math.min(4, cells)))
