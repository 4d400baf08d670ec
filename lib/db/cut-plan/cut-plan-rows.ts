import 'server-only'
import { z } from 'zod'
import type { CutNode, CutPlan } from '#lib/cloth/cut-plan'
import { askedCutSchema } from '#lib/coverage/asked-cut'

/** Something that was asked for, as it was called when the plan was made. */
export type PlannedWish = {
  id: string
  /** Empty for a plain size. */
  title: string
  designId: string | null
  projectId: string | null
  /** It fits some of the pieces that were tried. */
  fitsSome: boolean
}

const plannedWishSchema = z.object({
  id: z.string(),
  title: z.string(),
  designId: z.string().nullable(),
  projectId: z.string().nullable(),
  fitsSome: z.boolean(),
}) satisfies z.ZodType<PlannedWish>

/** What a plan keeps of what it was asked. */
export const keptAskedSchema = z.object({ asked: askedCutSchema, wishes: z.array(plannedWishSchema) })
export type KeptAsked = z.infer<typeof keptAskedSchema>

const um = z.int().min(0)
const box = { xUm: um, yUm: um, widthUm: um, heightUm: um }

const nodeSchema: z.ZodType<CutNode> = z.lazy(() =>
  z.discriminatedUnion('kind', [
    z.object({
      ...box,
      kind: z.literal('cut'),
      way: z.enum(['across', 'up']),
      atUm: um,
      first: nodeSchema,
      second: nodeSchema.nullable(),
    }),
    z.object({ ...box, kind: z.literal('wanted'), wishId: z.string(), copy: z.int(), isTurned: z.boolean() }),
    z.object({ ...box, kind: z.literal('offcut') }),
    z.object({ ...box, kind: z.literal('waste') }),
  ]),
)

/** A plan as it is kept. */
export const keptPlanSchema: z.ZodType<CutPlan> = z.object({
  layouts: z.array(z.object({ pieceId: z.string(), root: nodeSchema })),
  leftOut: z.array(z.object({ wishId: z.string(), copy: z.int() })),
  value: z.number(),
  cutCount: z.int(),
  wasteUm2: z.number(),
  largestOffcutsUm2: z.number(),
  valueBound: z.number(),
  bound: z.number(),
  isProved: z.boolean(),
})
