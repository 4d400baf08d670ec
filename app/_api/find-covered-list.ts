import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { chosenOwners } from './owners'
import { notFound, Problem } from './problem'

type Asked = { owner?: string[]; piece?: string; over?: number; list?: string }

/** A design held against what is there, and the thread list asked for, else the one that fits best; or what there is none of. */
export async function findCoveredList(designId: string, asked: Asked) {
  const ownerIds = await chosenOwners(asked.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const detail = await findDesign(designId)
  if (!detail) return notFound('design', designId)
  const answers = await getAnswers()
  const over = (asked.over ?? null) as 1 | 2 | null
  const coverage = coverageOfDesign(answers, detail, { ownerIds, pieceId: asked.piece, over })
  if (!coverage) return notFound('piece of cloth of these owners', asked.piece ?? '')
  const listId = asked.list ?? coverage.comparison[0]?.listId
  const covered = coverage.lists.find(({ list }) => list.id === listId)
  if (covered) return { ownerIds, detail, answers, coverage, covered }
  return asked.list === undefined
    ? new Problem('not-found', 'The design has no thread list yet.')
    : notFound('thread list of this design', asked.list)
}
