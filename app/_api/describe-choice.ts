import { nodesOf } from '#lib/cloth/cut-plan'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type ChoiceRun, startChoice, waitForChoice } from '#lib/db/planning/together/choice-jobs'
import type { ChoiceAsked } from '#lib/db/planning/together/read-choice'
import type { Bought } from '#lib/planning/together/choice-world'
import { choiceRefusedWords, leftOutWords, neverWords, valueWords } from '#words/choice'
import { namesIn } from '#words/names'
import { Problem } from './problem'

/** Make a choice and wait for it; as it is answered, or why it is refused. */
export async function makeChoice(asked: ChoiceAsked, run: ChoiceRun) {
  const answers = await getAnswers()
  const { world } = answers
  const named = [...(asked.designIds ?? []), ...asked.pins.keys(), ...asked.values.keys()]
  for (const id of named)
    if (!world.designs.has(id)) return new Problem('refused', `There is no design with the id ${JSON.stringify(id)}.`)
  for (const id of asked.pieceIds ?? [])
    if (!world.pieces.some((piece) => piece.id === id && asked.ownerIds.includes(piece.ownerId)))
      return new Problem('refused', `There is no piece of these owners with the id ${JSON.stringify(id)}.`)
  const started = await startChoice(asked, run)
  if (!started.ok) return new Problem('refused', choiceRefusedWords(started.error))
  const job = await waitForChoice(started.value.jobId)
  if (job?.state !== 'done') throw new Error(`the choice was not made: ${JSON.stringify(job)}`)
  const { names, length } = namesIn(answers)
  const { question } = job.answer
  const never = question.never.map((one) => ({
    ...{ designId: one.designId, title: one.title, why: neverWords(one, names, length, world.settings.lengthUnit) },
  }))
  if (job.answer.kind === 'pins-cannot') {
    const { leftOut } = job.answer
    const stops = [
      ...leftOut.map((one) => `${names.design(one.designId)}: ${leftOutWords(one, names, length).join(' ')}`),
      ...never.filter(({ designId }) => asked.pins.get(designId) === 'in').map(({ title, why }) => `${title}: ${why}`),
    ]
    return new Problem('refused', `Those that must be in cannot all be. ${stops.join(' ')}`)
  }
  const { choice, leftOut, unlocks, ladder } = job.answer
  const describeBought = (bought: readonly Bought[]) => bought.map((one) => ({ ...one, thread: names.thread(one.threadId) }))
  const placedOf = new Map(choice.placed.map((one) => [one.designId, one]))
  return {
    ...{ ownerIds: [...asked.ownerIds], value: choice.value, bound: choice.bound },
    ...{ isProved: choice.isProved, endedBy: choice.endedBy, bought: describeBought(choice.bought) },
    chosen: question.candidates.flatMap(({ designId, title, copies, value, parts }) => {
      const placed = placedOf.get(designId)
      return placed ? [{ designId, title, listId: placed.listId, copies, value, why: valueWords(parts) }] : []
    }),
    pieces: choice.cuts.map(({ pieceId, layout }) => ({
      pieceId,
      designs: [...nodesOf(layout.root)].flatMap((node) => {
        if (node.kind !== 'wanted') return []
        const { wishId, xUm, yUm, widthUm, heightUm, isTurned } = node
        return [
          {
            ...{ designId: wishId, title: names.design(wishId), listId: placedOf.get(wishId)?.listId ?? '' },
            ...{ xUm, yUm, widthUm, heightUm, isTurned },
          },
        ]
      }),
    })),
    leftOut: leftOut.map((one) => ({
      ...{ designId: one.designId, title: names.design(one.designId), why: leftOutWords(one, names, length) },
      threads: one.threads.map(({ threadId, needStrandTenths, leftStrandTenths, morePutUps, takenBy }) => ({
        ...{ threadId, needStrandTenths, leftStrandTenths, morePutUps, takenBy },
      })),
    })),
    never,
    unlocks: unlocks.map((unlock) => ({ ...unlock, thread: names.thread(unlock.threadId) })),
    ladder: ladder.map((step) => ({ ...step, bought: describeBought(step.bought) })),
    passedOver: question.passedOver,
  }
}
