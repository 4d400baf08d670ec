import { z } from 'zod'

const one = z.string().trim().max(200).catch('')

const questionSchema = z.object({ colour: one, maker: one, line: one, fibre: one, lot: one })

/** What is asked, as it stands in the address. Empty text says nothing. */
export type SkeinQuestion = z.infer<typeof questionSchema>

export const readQuestion = (searchParams: Record<string, string | string[] | undefined>): SkeinQuestion =>
  questionSchema.parse(searchParams)
