import { z } from 'zod'
import { defaultFraming } from '#lib/cloth/framing'
import { finishingMargins } from '#lib/cloth/margins'
import { mostOwnFinishings } from '#lib/settings/settings'
import { marginsSchema } from './cloth-size'
import { operation } from './operation'
import { shortText } from './quantities'

const margin = z.int().min(0).max(500_000)
const postedMarginsSchema = z
  .strictObject({ leftUm: margin, rightUm: margin, topUm: margin, bottomUm: margin })
  .meta({ id: 'PostedMargins', description: 'Up to half a metre on each side.' })
const name = shortText.max(60)

const framingSchema = z
  .strictObject({ seenUm: margin, rabbetUm: margin, boardUm: margin, turnBackUm: margin })
  .meta({ id: 'Framing', description: 'What a framed margin is made of, from the stitched edge outwards.' })

const answerSchema = z
  .strictObject({
    finishing: z.string().meta({ description: 'The one that fit and cuts are reckoned for.' }),
    finishings: z.array(
      z.strictObject({ name: z.string(), isOwn: z.boolean(), margins: marginsSchema }).meta({ id: 'Finishing' }),
    ),
    framing: framingSchema,
    framingSumUm: z.int().meta({ description: 'Its parts together.' }),
    framingMarginUm: z.int().meta({ description: 'That sum, rounded up as cuts are.' }),
  })
  .meta({ id: 'Finishings' })

const exampleAnswer: z.input<typeof answerSchema> = {
  finishing: 'framed',
  finishings: [{ name: 'framed', isOwn: false, margins: { ...finishingMargins.framed } }],
  framing: { ...defaultFraming },
  framingSumUm: 66_675,
  framingMarginUm: 76_200,
}

export const listFinishingsOperation = operation({
  method: 'get',
  path: '/finishings',
  id: 'listFinishings',
  group: 'Designs',
  summary: 'Ways of finishing and their margins, and what a framed margin is made of',
  answer: answerSchema,
  answerMeans: 'All of them: those always there, then those added.',
  example: { answer: exampleAnswer },
})

export const saveFinishingOperation = operation({
  method: 'post',
  path: '/finishings',
  id: 'saveFinishing',
  right: 'keep',
  group: 'Designs',
  summary: 'Add a way of finishing, or change the margins of one',
  description: `Every answer is worked out anew. At most ${mostOwnFinishings} can be added.`,
  body: z.strictObject({ name, margins: postedMarginsSchema }).meta({ id: 'FinishingRequest' }),
  answer: answerSchema,
  answerMeans: 'All of them, as they now stand.',
  problems: ['refused'],
  example: { body: { name: 'needle book', margins: { ...finishingMargins.biscornu } }, answer: exampleAnswer },
})

export const removeFinishingOperation = operation({
  method: 'post',
  path: '/finishings/remove',
  id: 'removeFinishing',
  right: 'keep',
  group: 'Designs',
  summary: 'Take away a way of finishing that was added',
  description: 'Where fit and cuts were reckoned for it, they are for framing from then on.',
  body: z.strictObject({ name }).meta({ id: 'RemoveFinishingRequest' }),
  answer: answerSchema,
  answerMeans: 'Those left.',
  problems: ['refused'],
  example: { body: { name: 'needle book' }, answer: exampleAnswer },
})

export const saveFramingOperation = operation({
  method: 'post',
  path: '/finishings/framing',
  id: 'saveFraming',
  right: 'keep',
  group: 'Designs',
  summary: 'Set what a framed margin is made of',
  body: framingSchema
    .extend({ apply: z.boolean().default(false).meta({ description: 'Make the sum, rounded up, the framed margin all round.' }) })
    .meta({ id: 'FramingRequest' }),
  answer: answerSchema,
  answerMeans: 'All of them, as they now stand.',
  example: { body: { ...defaultFraming, apply: true }, answer: exampleAnswer },
})
