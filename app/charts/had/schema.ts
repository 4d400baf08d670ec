import { z } from 'zod'

const hash = /^[0-9a-f]{16}$/u

/** What is asked: words, or what a photo looks like, as its hashes with a dot between them. */
export const hadQuerySchema = z.object({
  q: z.string().trim().max(200).catch(''),
  photo: z
    .string()
    .max(200)
    .transform((text) => text.split('.').filter((one) => hash.test(one)))
    .catch([]),
})
