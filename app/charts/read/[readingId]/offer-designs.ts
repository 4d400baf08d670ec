import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import type { StagedReading } from '#lib/db/reading/reading-store'
import type { DesignOffered } from './save-form'

const mostOffered = 6

/** For each design read: those on record that may be meant by its title or the file's name; the one it was said to be of comes first. */
export async function offerDesigns({ review, designId, name, source }: StagedReading): Promise<DesignOffered[][]> {
  const { search } = await getAnswers()
  const designs = review?.reading.designs ?? []
  return Promise.all(
    designs.map(async ({ facts }) => {
      const words =
        facts.title?.value ?? (source.kind === 'text' || designs.length > 1 ? '' : name.replace(/\.[a-z]{3,4}$/iu, ''))
      const found =
        words.trim() === ''
          ? []
          : search.search(words, { limit: mostOffered, noun: 'design' }).hits.map(({ id }) => id.slice('design:'.length))
      const ids = [...new Set([...(designId ? [designId] : []), ...found])].slice(0, mostOffered)
      const details = await Promise.all(ids.map(findDesign))
      return details.flatMap((detail) => {
        if (!detail) return []
        const { design, chart, lists } = detail
        return [{ id: design.id, title: design.title, chartTitle: chart.title, listNames: lists.map((list) => list.name) }]
      })
    }),
  )
}
