import { z } from 'zod'
import { cutObjectives } from '#lib/cloth/cut-plan'

/** What is cut first when not everything can be: the least of an earlier kind counts more than all of the later ones together. */
export const cutPriorities = ['must have', 'wanted', 'if there is room'] as const
export type CutPriority = (typeof cutPriorities)[number]

/** More things to cut than anybody lays out at once, and more pieces than a table holds. */
export const mostWishes = 40
export const mostCopies = 200
export const mostCutPieces = 40
export const mostWorth = 100

const id = z.string().min(1).max(100)
/** Two hundred metres: no cloth is longer. */
const side = z.int().min(1).max(200_000_000)
/** A metre. */
export const widestCutMarginUm = 1_000_000
const margin = z.int().min(0).max(widestCutMarginUm)

const common = {
  copies: z.int().min(1).max(mostCopies),
  priority: z.enum(cutPriorities),
  /** What a copy counts beside others of its priority. */
  worth: z.int().min(1).max(mostWorth),
}

const designWishSchema = z.strictObject({
  kind: z.literal('design'),
  designId: id,
  /** The project it is cut for, which may then use the pieces kept for it. */
  projectId: id.nullable(),
  /** Threads to a stitch; null as the chart advises. */
  over: z.union([z.literal(1), z.literal(2)]).nullable(),
  margins: z.strictObject({ leftUm: margin, rightUm: margin, topUm: margin, bottomUm: margin }),
  /** Only on the cloth its chart advises, where it advises one; or on any that takes it. */
  cloth: z.enum(['advised', 'any']),
  ...common,
})

const sizeWishSchema = z.strictObject({
  kind: z.literal('size'),
  /** Along the weft. */
  widthUm: side,
  heightUm: side,
  /** May be laid the other way about on cloth that may be turned. */
  mayTurn: z.boolean(),
  ...common,
})

export const askedWishSchema = z.discriminatedUnion('kind', [designWishSchema, sizeWishSchema])
export type AskedWish = z.infer<typeof askedWishSchema>

/** What a plan of cuts is asked to do. */
export const askedCutSchema = z.strictObject({
  wishes: z
    .array(askedWishSchema)
    .min(1)
    .max(mostWishes)
    .refine((wishes) => wishes.reduce((sum, { copies }) => sum + copies, 0) <= mostCopies, {
      message: `More than ${mostCopies} cuts in one plan.`,
      params: { accepted: `up to ${mostCopies} copies in all` },
    }),
  /** Pieces to cut from; null: those that suit best. */
  pieceIds: z.array(id).max(mostCutPieces).nullable(),
  objective: z.enum(cutObjectives),
  gapUm: z.int().min(0).max(50_000),
  leastOffcutUm: z.int().min(0).max(1_000_000),
  seed: z.int().min(0).max(1_000_000_000),
})
export type AskedCut = z.infer<typeof askedCutSchema>
