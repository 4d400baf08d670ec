import { z } from 'zod'
import { idText } from '#forms/fields'
import { say } from '#language/say'
import { choicePins } from '#lib/planning/together/choice-world'
import { choiceSources, mostStars, mostValueOfDesign, nearPutUps } from '#lib/planning/together/wish-value'
import { parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'
import { screens } from './screens'

/** What a search may take, in seconds. */
export const choiceLimits = [5, 20, 60, 300] as const
export const usualLimit = 20

export const mostPutUps = 200

const ids = z.preprocess(
  (value) => (value === undefined ? [] : [value].flat()),
  z.array(z.string().min(1).max(64)).max(1_000).catch([]),
)

/** What a page chooses from by itself. */
export const pageSources = ['wished', 'stitchable', 'near'] as const
export type PageSource = (typeof pageSources)[number]

export const sourceWords = (): Record<PageSource, string> => ({
  wished: say('the wishes'),
  stitchable: say('all that is stitchable now'),
  near: say('all that lack at most {nearPutUps} put-ups', { nearPutUps }),
})

/** A page's address: where designs come from, others added, and which kind of cloth. */
export const choosePageSchema = z.object({
  /** Null: the wishes, where there are some to choose from, else what the screen says. */
  from: z.enum(pageSources).nullable().catch(null).default(null),
  kind: z.string().max(60).catch('').default(''),
  q: z.string().trim().max(200).catch('').default(''),
  also: ids,
})
export type ChoosePageQuery = z.infer<typeof choosePageSchema> & { from: PageSource }

const seconds = z.coerce
  .number()
  .refine((value) => choiceLimits.some((limit) => limit === value))
  .catch(usualLimit)

export const startChoiceSchema = z.object({
  screen: z.enum(screens),
  from: z.enum(choiceSources),
  design: ids,
  piece: ids,
  /** `pieces`: those ticked. */
  cloth: z.enum(['aside', 'any', 'pieces']).catch('any'),
  hasLadder: z
    .literal('on')
    .transform(() => true)
    .catch(false),
  seconds,
})

/** How much may be bought, as a form says it. */
export const buyingSchema = z
  .object({ buying: z.enum(['nothing', 'put-ups', 'budget']).catch('nothing'), most: z.string().trim().default('') })
  .transform(({ buying, most: text }, context) => {
    if (buying === 'nothing') return { kind: buying }
    const most = buying === 'put-ups' ? parseWholeNumber(text) : (parsePrice(text)?.minor ?? null)
    const isRight = most !== null && most > 0 && (buying === 'budget' || most <= mostPutUps)
    if (isRight) return buying === 'put-ups' ? { kind: buying, most } : { kind: buying, mostMinor: most }
    context.addIssue({
      code: 'custom',
      path: ['most'],
      message:
        buying === 'put-ups'
          ? say('Put-ups are a whole number from 1 to {mostPutUps}.', { mostPutUps })
          : say('Money is a figure above nought: 12.50.'),
    })
    return z.NEVER
  })

export const valueSchema = z.coerce
  .number({ error: () => say('A whole number from 1 to {mostValueOfDesign}.', { mostValueOfDesign }) })
  .int()
  .min(1)
  .max(mostValueOfDesign)
export const pinSchema = z.enum(choicePins).catch('may')
export const jobSchema = z.object({ jobId: idText })
export const askAgainSchema = z.object({ jobId: idText, designId: idText, screen: z.enum(screens) })
export const starsSchema = z.object({
  projectIds: z.array(idText).min(1).max(100),
  stars: z.int().min(1).max(mostStars).nullable(),
})
