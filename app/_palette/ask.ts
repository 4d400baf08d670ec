import { namesInOrder } from '#language/figures'
import { say } from '#language/say'
import { clothKindWords } from '#words/cloth-kind'
import { doingsAtWork } from './doings'
import type { Entry } from './entries'

/** What came of asking: answers, or why there are none. */
export type Asked<T> = { kind: 'answered'; value: T } | { kind: 'unreached' } | { kind: 'signed-out' } | { kind: 'failed' }

const patienceMs = 10_000

async function ask<T>(path: string, signal: AbortSignal): Promise<Asked<T>> {
  try {
    const response = await fetch(`/api/v1${path}`, {
      cache: 'no-store',
      signal: AbortSignal.any([signal, AbortSignal.timeout(patienceMs)]),
    })
    if (response.status === 401) return { kind: 'signed-out' }
    if (!response.ok) return { kind: 'failed' }
    return { kind: 'answered', value: (await response.json()) as T }
  } catch (error) {
    // Asked anew meanwhile: nobody waits for this answer.
    if (signal.aborted) throw error
    return { kind: 'unreached' }
  }
}

const query = (values: Record<string, string | number>, ownerIds: readonly string[]): string => {
  const search = new URLSearchParams(Object.entries(values).map(([name, value]) => [name, String(value)]))
  for (const ownerId of ownerIds) search.append('owner', ownerId)
  return search.toString()
}

type Place = { label: string }
type Hit = { noun: string; id: string; title: string; label: string | null; match: string; places: Place[] }

const hitKinds: Record<string, { kind: string; folder: string }> = {
  design: { kind: 'Chart', folder: 'designs' },
  thread: { kind: 'Thread', folder: 'threads' },
  cloth: { kind: 'Cloth', folder: 'cloth' },
  notion: { kind: 'Notion', folder: 'notions' },
  place: { kind: 'Place', folder: 'places' },
  project: { kind: 'Project', folder: 'projects' },
}

export const mostHits = 8

/** "count T2.1": a count of that place. */
const countOf = /^count\s+(\S.*)$/i

/**
 * What Find finds for these words, the best first; after “count”, the places there are to count.
 *
 * @throws what ended `signal`, once it is ended
 */
export async function askFor(
  words: string,
  { ownerIds, mayChange }: { ownerIds: readonly string[]; mayChange: boolean },
  signal: AbortSignal,
): Promise<Asked<Entry[]>> {
  const [, counted] = countOf.exec(words) ?? []
  if (counted !== undefined && mayChange) return askToCount(counted, signal)
  const asked = await ask<{ hits: Hit[] }>(`/search?${query({ q: words, limit: mostHits }, ownerIds)}`, signal)
  if (asked.kind !== 'answered') return asked
  const entries = asked.value.hits.flatMap(({ noun, id, title, label, match, places }): Entry[] => {
    const of = hitKinds[noun]
    // A chart's designs are found by themselves.
    if (!of) return []
    return [
      {
        href: `/${of.folder}/${id}`,
        // A label is what one reads off and types: it stands before the name.
        title: label === null || label === title ? title : `${label}, ${title}`,
        kind: of.kind,
        places: places.map((place) => place.label),
        note: match === 'close' ? say('a close code, not the same') : undefined,
      },
    ]
  })
  return { kind: 'answered', value: entries }
}

async function askToCount(words: string, signal: AbortSignal): Promise<Asked<Entry[]>> {
  const asked = await ask<{ hits: Hit[] }>(`/search?${query({ q: words, noun: 'place', limit: mostHits }, [])}`, signal)
  if (asked.kind !== 'answered') return asked
  const entries = asked.value.hits.map(({ id, title, label }) => ({
    href: `/count?place=${id}#begin`,
    title: say('Count {label}', { label: label ?? title }),
    kind: 'To do',
    note: label === title ? undefined : title,
  }))
  return { kind: 'answered', value: entries }
}

/** What can be stitched now, and what is done to the works under the needle. */
export type Standing = { stitchable: Entry[]; stitchableCount: number; byCloth: Entry[]; atWork: Entry[] }

type Design = { designId: string; title: string; current: Place | null; home: Place | null }
type Designs = { total: number; designs: Design[]; facets?: { clothCount: { id: string; count: number }[] } }
type Projects = { projects: { projectId: string; status: string; design: { title: string } }[] }

const shownStitchable = 4

/** How things stand, for before anything is typed. @throws what ended `signal`, once it is ended */
export async function askStanding(
  ownerIds: readonly string[],
  mayChange: boolean,
  signal: AbortSignal,
): Promise<Asked<Standing>> {
  const [designs, projects] = await Promise.all([
    ask<Designs>(`/designs?${query({ stitchableNow: 'true', facets: 'true', limit: shownStitchable }, ownerIds)}`, signal),
    ask<Projects>(`/projects?${query({ limit: 50 }, ownerIds)}`, signal),
  ])
  if (designs.kind !== 'answered') return designs
  if (projects.kind !== 'answered') return projects
  const byNumber = namesInOrder()
  return {
    kind: 'answered',
    value: {
      stitchableCount: designs.value.total,
      stitchable: designs.value.designs.map(({ designId, title, current, home }) => ({
        href: `/designs/${designId}`,
        title,
        kind: 'Chart',
        places: [(current ?? home)?.label ?? ''].filter(Boolean),
      })),
      byCloth: (designs.value.facets?.clothCount ?? [])
        .map(({ id, count }) => ({
          href: `/charts?${new URLSearchParams({ stitchableNow: '1', clothCount: id })}`,
          title: clothKindWords(id),
          kind: 'To do',
          note: say('{count} stitchable now on it', { count }),
          also: say('cloth count on hand next'),
        }))
        .sort((a, b) => byNumber.compare(a.title, b.title)),
      atWork: doingsAtWork(
        projects.value.projects.map(({ projectId, status, design }) => ({ id: projectId, status, title: design.title })),
        mayChange,
      ),
    },
  }
}
