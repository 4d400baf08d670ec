import 'server-only'
import type { SearchEntry } from '#lib/search/search-index'
import type { World } from './answers'

/** Which of each noun to make entries for; null makes them all. */
type Touched = Record<'thread' | 'cloth' | 'notion' | 'place' | 'design' | 'project', readonly string[]>

const present = (...words: (string | null | undefined)[]): string[] =>
  words.filter((word) => word != null && word !== '') as string[]

/** What can be found of threads, cloth, notions, places, designs (by their charts and designers too) and projects (by bag and whom they are for). */
export function* searchEntries(world: World, touched: Touched | null = null): Generator<SearchEntry, void, void> {
  const { threads, lines, places, designs, designers, themes, pieces, notions, owners, projects, formerCodes, formerTitles } =
    world
  const labels = (...ids: (string | null)[]) => present(...new Set(ids)).flatMap((id) => present(places.get(id)?.label))
  const some = <T>(all: ReadonlyMap<string, T>, ids: readonly string[] | undefined): Iterable<T> =>
    ids === undefined ? all.values() : ids.flatMap((id) => all.get(id) ?? [])

  for (const thread of some(threads, touched?.thread)) {
    const line = lines.get(thread.lineId)
    yield {
      id: `thread:${thread.id}`,
      noun: 'thread',
      title: present(line?.makerName, thread.code, thread.name).join(' '),
      also: present(line?.name, line?.fibre, ...(formerCodes.get(thread.id) ?? [])),
      code: thread.code,
    }
  }
  const chosen = touched && new Set(touched.cloth)
  for (const piece of pieces) {
    if (chosen && !chosen.has(piece.id)) continue
    yield {
      id: `cloth:${piece.id}`,
      noun: 'cloth',
      title: present(piece.name, piece.colourName).join(', '),
      also: present(owners.get(piece.ownerId), String(Math.round((piece.ends.threads * 25_400) / piece.ends.perUm))),
      code: piece.label ?? undefined,
      places: labels(piece.homePlaceId, piece.currentPlaceId),
    }
  }
  for (const notion of some(notions, touched?.notion)) {
    yield {
      id: `notion:${notion.id}`,
      noun: 'notion',
      title: present(notion.name, notion.size).join(' '),
      also: present(notion.kind, owners.get(notion.ownerId)),
      places: labels(notion.homePlaceId, notion.currentPlaceId),
    }
  }
  for (const place of some(places, touched?.place)) {
    yield { id: `place:${place.id}`, noun: 'place', title: place.name ?? place.label, also: [place.kind], code: place.label }
  }
  for (const facts of some(designs, touched?.design)) {
    yield {
      id: `design:${facts.design.id}`,
      noun: 'design',
      title: facts.design.title,
      also: [
        ...(facts.chartTitle === facts.design.title ? [] : [facts.chartTitle]),
        ...(formerTitles.get(facts.design.chartId) ?? []),
        ...facts.designerIds.flatMap((id) => present(designers.get(id))),
        ...facts.themeIds.flatMap((id) => present(themes.get(id)?.name)),
        facts.kind,
      ],
      places: labels(facts.homePlaceId, facts.currentPlaceId),
    }
  }
  for (const project of some(projects, touched?.project)) {
    const facts = designs.get(project.designId)
    yield {
      id: `project:${project.id}`,
      noun: 'project',
      title: facts?.design.title ?? 'a design that is gone',
      also: present(project.forWhom, project.status, project.note),
      places: labels(project.placeId),
    }
  }
}
