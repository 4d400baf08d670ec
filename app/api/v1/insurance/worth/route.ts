import { keepWorthOperation } from '#api/insurance'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { keepWorth } from '#lib/db/insurance/keep-worth'

const keep = serve(keepWorthOperation, async ({ body }) => {
  const kept = await keepWorth(body)
  if (!kept.ok) return new Problem('refused', 'It changed meanwhile, or is not there any more. Read it again.')
  return { noun: body.noun, id: body.id, version: body.version + 1 }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: keep })
