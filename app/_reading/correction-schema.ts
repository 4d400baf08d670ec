import { z } from 'zod'
import { say } from '#language/say'
import { columnRoles } from '#lib/chart/key-text/lesson'
import type { Correction } from '#lib/chart/key-text/teach'
import { stitches } from '#lib/thread/stitches'

const index = z.int().min(0).max(100_000)
const text = z.string().trim().min(1).max(200)
const said = text.nullable()
const strands = z.int().min(1).max(24)
const figure = z.int().min(0).max(100_000_000)
const id = z.string().min(1).max(64)

const byHand = (value: number) => ({ value, confidence: 1, line: null, byHand: true as const })
const amountSchema = z.union([
  z
    .strictObject({ kind: z.literal('stitches'), stitch: z.enum(stitches), count: figure.max(10_000_000) })
    .transform(({ count, ...rest }) => ({ ...rest, count: byHand(count) })),
  z
    .strictObject({
      kind: z.literal('put-ups'),
      hundredths: figure.max(1_000_000),
      putUpWord: z.string().max(40).nullable().default(null),
    })
    .transform(({ hundredths, ...rest }) => ({ ...rest, hundredths: byHand(hundredths) })),
  z
    .strictObject({ kind: z.literal('length'), tenths: figure })
    .transform(({ tenths, ...rest }) => ({ ...rest, tenths: byHand(tenths) })),
])

const placeSchema = z.strictObject({ design: index, list: index, line: index }).meta({
  id: 'KeyLinePlace',
  description: say('Where a key line stands: the index of its design, of the list in it, of the line in that.'),
})

const fieldEditSchema = z.union([
  z.strictObject({ field: z.literal('symbol'), value: z.string().trim().min(1).max(20).nullable() }),
  z.strictObject({ field: z.enum(['maker', 'threadLine', 'code', 'name']), thread: index, value: said }),
  z.strictObject({ field: z.literal('strands'), thread: index, value: strands.nullable() }),
  z.strictObject({ field: z.literal('match'), thread: index, threadId: id.nullable() }),
  z.strictObject({ field: z.literal('stitches'), value: z.array(z.enum(stitches)).max(stitches.length).nullable() }),
  z.strictObject({ field: z.literal('amounts'), value: z.array(amountSchema).max(20) }),
  z.strictObject({ field: z.literal('add thread') }),
  z.strictObject({ field: z.literal('remove thread'), thread: index }),
])

const factEditSchema = z.union([
  z.strictObject({ fact: z.enum(['title', 'designer', 'cloth']), value: said }),
  z.strictObject({
    fact: z.enum(['widthStitches', 'heightStitches', 'measuredWidthUm', 'measuredHeightUm']),
    value: z.int().min(1).max(100_000_000).nullable(),
  }),
  z.strictObject({
    fact: z.literal('count'),
    value: z.strictObject({ threads: z.int().min(1).max(1_000_000), perUm: z.int().min(1).max(1_000_000_000) }).nullable(),
  }),
  z.strictObject({ fact: z.literal('over'), value: z.union([z.literal(1), z.literal(2)]).nullable() }),
  z.strictObject({ fact: z.literal('weave'), value: z.enum(['block', 'single']).nullable() }),
])

const numberMeaning = z.enum(['strands', 'stitches', 'put-ups'])

const lessonSchema = z.union([
  z
    .strictObject({
      kind: z.literal('column'),
      fromLine: index,
      toLine: index,
      column: index.max(100),
      means: z.enum(columnRoles),
    })
    .refine(({ fromLine, toLine }) => fromLine <= toLine),
  z.strictObject({
    kind: z.literal('maker'),
    was: z.strictObject({ maker: said, threadLine: said }),
    maker: text,
    threadLine: said,
  }),
  z.strictObject({ kind: z.literal('thread'), maker: said, code: said, name: said, threadId: id }),
  z.strictObject({ kind: z.literal('strands'), stitch: z.enum(stitches).nullable(), strands }),
  z
    .strictObject({ kind: z.literal('numbers'), fromLine: index, toLine: index, was: numberMeaning, means: numberMeaning })
    .refine(({ fromLine, toLine }) => fromLine <= toLine),
])

/** One correction of a reading, as it is sent. Amounts come as plain figures: what a person gives is sure. */
export const correctionSchema = z.union([
  z.strictObject({
    kind: z.literal('field'),
    place: placeSchema,
    edit: fieldEditSchema,
    teachesRest: z.boolean().default(false),
  }),
  z.strictObject({ kind: z.literal('fact'), design: index, edit: factEditSchema }),
  z.strictObject({ kind: z.literal('lesson'), lesson: lessonSchema }),
  z.strictObject({ kind: z.literal('make line'), design: index, list: index, sourceLine: index }),
  z.strictObject({ kind: z.literal('dismiss'), sourceLine: index }),
  z.strictObject({ kind: z.literal('remove line'), place: placeSchema }),
]) satisfies z.ZodType<Correction>

/** A correction as a page sends it. */
export type SentCorrection = z.input<typeof correctionSchema>

/** Several corrections are one step, taken back together. */
export const correctionsSchema = z.array(correctionSchema).min(1).max(200)
