import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { askWhatIfOperation } from '#api/what-if'
import type { WhatIf } from '#lib/coverage/engine'
import { getAnswers } from '#lib/db/answers/get-answers'
import { askWhatIf, type NotSupposed } from '#lib/db/coverage/what-if'

function refusalOf({ kind, id }: NotSupposed): Problem {
  const quoted = JSON.stringify(id.slice(0, 100))
  switch (kind) {
    case 'no-such-thread':
      return new Problem('refused', `There is no thread with the id ${quoted}.`)
    case 'no-such-project':
      return new Problem('refused', `There is no project of these owners with the id ${quoted}.`)
    case 'empty-bag':
      return new Problem('refused', `The project ${quoted} has neither a bag nor anything promised to it.`)
  }
}

const post = serve(askWhatIfOperation, async ({ body }) => {
  const ownerIds = await chosenOwners(body.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { buy, unpackProjectIds, limit } = body
  const { outcome, notSupposed } = askWhatIf(answers, { buy, unpackProjectIds, ownerIds })
  const [first] = notSupposed
  if (first) return refusalOf(first)
  const shown = (changed: readonly WhatIf[]) =>
    changed.slice(0, limit).map((one) => ({ ...one, title: answers.world.designs.get(one.designId)?.design.title ?? '' }))
  const { opened, openedWithSwaps, nearer, worse, inPart } = outcome
  return {
    ownerIds,
    counts: {
      opened: opened.length,
      openedWithSwaps: openedWithSwaps.length,
      nearer: nearer.length,
      worse: worse.length,
      inPart: inPart.length,
    },
    opened: shown(opened),
    openedWithSwaps: shown(openedWithSwaps),
    nearer: shown(nearer),
    worse: shown(worse),
    inPart: shown(inPart),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: post })
