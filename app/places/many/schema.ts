import { z } from 'zod'
import { isTicked } from '#forms/fields'
import { say } from '#language/say'
import { type GivenPlaceKind, givenPlaceKinds } from '#lib/place/place'

export const usualKinds: readonly GivenPlaceKind[] = ['cabinet', 'drawer', 'compartment']

const kindAt = (level: number) => z.enum(givenPlaceKinds).catch(usualKinds[level] as GivenPlaceKind)

const fields = {
  pattern: z
    .string()
    .trim()
    .max(200, { error: () => say('Keep the pattern to 200 characters.') }),
  kind0: kindAt(0),
  kind1: kindAt(1),
  kind2: kindAt(2),
  inside: z
    .string()
    .max(64)
    .catch('')
    .transform((id) => (id === '' ? null : id)),
}

const asAsked = <
  Fields extends { kind0: GivenPlaceKind; kind1: GivenPlaceKind; kind2: GivenPlaceKind; pattern: string; inside: string | null },
>({
  kind0,
  kind1,
  kind2,
  inside,
  ...rest
}: Fields) => ({ ...rest, kinds: [kind0, kind1, kind2], parentId: inside })

/** What is looked at before it is made; a text that does not read shows its refusal on the page. */
export const manySearchSchema = z.object({ ...fields, pattern: z.string().trim().max(200).catch('') }).transform(asAsked)

export const manySchema = z.object({ ...fields, keeps: isTicked }).transform(asAsked)

export const forgetPatternSchema = z.object({
  text: z.string().max(200),
  insideId: z
    .string()
    .max(64)
    .transform((id) => (id === '' ? null : id)),
})
