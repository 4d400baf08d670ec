import { expect } from 'vitest'
import type { z } from 'zod'
import { problemSchema } from '#api/problem'
import type { Handler } from '#api/serve'
import { ask } from '#tests/unit/api/ask'

export type Asked = NonNullable<Parameters<typeof ask>[1]>

/** Ask for an answer, and insist that it is one as the operation declares. */
export async function answer<Schema extends z.ZodType>(
  { answer: schema, answerStatus = 200 }: { answer: Schema; answerStatus?: number },
  handler: Handler,
  asked: Asked = {},
): Promise<z.output<Schema>> {
  const got = await ask(handler, asked)
  expect(got.body).not.toHaveProperty('detail')
  expect(got.status).toBe(answerStatus)
  return schema.parse(got.body)
}

/** Ask for what cannot be done, and insist that the refusal is a problem as the API declares them. */
export const problem = async (handler: Handler, asked: Asked) => problemSchema.parse((await ask(handler, asked)).body)
