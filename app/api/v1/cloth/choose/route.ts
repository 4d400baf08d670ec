import { chooseDesignsOperation } from '#api/choose-designs'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { nodesOf } from '#lib/cloth/cut-plan'
import { getAnswers } from '#lib/db/answers/get-answers'
import { startChoice, waitForChoice } from '#lib/db/planning/choice-jobs'
import { choiceRefusedWords, leftOutWords, neverWords } from '#words/choice'
import { calendarDay } from '#words/date'
import { namesIn } from '#words/names'

const post = serve(chooseDesignsOperation, async ({ body }) => {
  const ownerIds = await chosenOwners(body.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { world } = answers
  for (const id of body.designIds ?? [])
    if (!world.designs.has(id)) return new Problem('refused', `There is no design with the id ${JSON.stringify(id)}.`)
  for (const id of body.pieceIds ?? [])
    if (!world.pieces.some((piece) => piece.id === id && ownerIds.includes(piece.ownerId)))
      return new Problem('refused', `There is no piece of these owners with the id ${JSON.stringify(id)}.`)
  const started = startChoice(
    {
      ...{ ownerIds, source: body.from, designIds: body.designIds ?? null, pieceIds: body.pieceIds ?? null },
      ...{ values: new Map(Object.entries(body.values)), today: calendarDay(new Date()) },
    },
    body.seconds,
  )
  if (!started.ok) return new Problem('refused', choiceRefusedWords(started.error))
  const job = await waitForChoice(started.value.jobId)
  if (job?.state !== 'done') throw new Error(`the choice was not made: ${JSON.stringify(job)}`)
  const { question, choice, leftOut } = job.answer
  const { names, length } = namesIn(answers)
  const listOf = new Map(choice.placed.map(({ designId, listId }) => [designId, listId]))
  return {
    ...{ ownerIds, value: choice.value, bound: choice.bound, isProved: choice.isProved, endedBy: choice.endedBy },
    pieces: choice.cuts.map(({ pieceId, layout }) => ({
      pieceId,
      designs: [...nodesOf(layout.root)].flatMap((node) => {
        if (node.kind !== 'wanted') return []
        const { wishId, xUm, yUm, widthUm, heightUm, isTurned } = node
        return [
          {
            ...{ designId: wishId, title: names.design(wishId), listId: listOf.get(wishId) ?? '' },
            ...{ xUm, yUm, widthUm, heightUm, isTurned },
          },
        ]
      }),
    })),
    leftOut: leftOut.map((one) => ({
      ...{ designId: one.designId, title: names.design(one.designId), why: leftOutWords(one, names, length) },
    })),
    never: question.never.map((one) => ({
      ...{ designId: one.designId, title: one.title, why: neverWords(one, names, length, world.settings.lengthUnit) },
    })),
    passedOver: question.passedOver,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: post })
