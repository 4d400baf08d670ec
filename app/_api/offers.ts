import { z } from 'zod'
import { operation } from './operation'
import { idText, noteText, putUpStrandTenths, shortText } from './quantities'

const version = z.int().min(0).optional().meta({ description: 'The version last seen; left out, it is taken as it stands.' })

const offerSchema = z
  .strictObject({
    offerId: z.string(),
    version: z.int(),
    lineId: z.string(),
    threadId: z.string().nullable().meta({ description: 'Null: every thread of the line is sold so.' }),
    supplier: z.string().nullable(),
    putUpWord: z.string().nullable().meta({ description: 'Null: as the line calls one.' }),
    putUpStrandTenths: z.int(),
    packPutUps: z.int(),
    priceMinor: z.int().meta({ description: 'Of one pack.' }),
    note: z.string().nullable(),
  })
  .meta({ id: 'ThreadOffer', description: 'A way thread is sold: how long, how many in a pack, for how much, by whom.' })

const exampleOffer = {
  ...{ offerId: 'f1', version: 0, lineId: 'l1', threadId: null, supplier: 'Marl Street', putUpWord: null },
  ...{ putUpStrandTenths: 480_000, packPutUps: 12, priceMinor: 1_500, note: null },
}

const factsFields = {
  threadId: idText.nullable().default(null),
  supplier: shortText.nullable().default(null),
  putUpWord: shortText.max(40).nullable().default(null),
  putUpStrandTenths,
  packPutUps: z.int().min(1).max(999).default(1),
  priceMinor: z.int().min(0).max(1_000_000),
  note: noteText.max(1_000).nullable().default(null),
}
const savedSchema = z.strictObject({ offer: offerSchema }).meta({ id: 'ThreadOfferSaved' })
const exampleBody = { supplier: 'Marl Street', putUpStrandTenths: 480_000, packPutUps: 12, priceMinor: 1_500 }
const group = 'Stock' as const

export const listOffersOperation = operation({
  ...({ method: 'get', path: '/lines/{lineId}/offers', id: 'listThreadOffers', group } as const),
  summary: 'How a line of thread is sold',
  pathParameters: z.strictObject({ lineId: idText }),
  answer: z
    .strictObject({
      lineId: z.string(),
      putUpStrandTenths: z.int().meta({ description: 'What the line itself says one holds, and costs.' }),
      priceMinor: z.int().nullable(),
      offers: z.array(offerSchema),
    })
    .meta({ id: 'ThreadOfferList' }),
  answerMeans: 'What holds for the whole line first, then thread by thread.',
  problems: ['not-found'],
  example: { answer: { lineId: 'l1', putUpStrandTenths: 480_000, priceMinor: 150, offers: [exampleOffer] } },
})

export const addOfferOperation = operation({
  ...({ method: 'post', path: '/lines/{lineId}/offers', id: 'addThreadOffer', group } as const),
  summary: 'Put down a way a line is sold',
  description: 'Lists of what to buy take the cheapest of them, or a mix. The same put-ups, pack and shop are put down once.',
  pathParameters: z.strictObject({ lineId: idText }),
  body: z.strictObject(factsFields).meta({ id: 'ThreadOfferRequest' }),
  answer: savedSchema,
  answerStatus: 201,
  answerMeans: 'The offer.',
  problems: ['not-found', 'refused'],
  example: { body: exampleBody, answer: { offer: exampleOffer } },
})

export const changeOfferOperation = operation({
  ...({ method: 'post', path: '/offers/{offerId}', id: 'changeThreadOffer', group } as const),
  summary: 'Change a way a line is sold',
  pathParameters: z.strictObject({ offerId: idText }),
  body: z.strictObject({ ...factsFields, version }).meta({ id: 'ThreadOfferChange' }),
  answer: savedSchema,
  answerMeans: 'The offer as it is now.',
  problems: ['not-found', 'refused'],
  example: { body: { ...exampleBody, version: 0 }, answer: { offer: { ...exampleOffer, version: 1 } } },
})

export const removeOfferOperation = operation({
  ...({ method: 'post', path: '/offers/{offerId}/remove', id: 'removeThreadOffer', group } as const),
  summary: 'Remove a way a line is sold',
  description: 'Lists made already keep what they say.',
  pathParameters: z.strictObject({ offerId: idText }),
  body: z.strictObject({ version }).meta({ id: 'ThreadOfferRemoval' }),
  answer: z.strictObject({ ok: z.literal(true) }).meta({ id: 'ThreadOfferRemoved' }),
  answerMeans: 'It is gone.',
  problems: ['not-found', 'refused'],
  example: { body: { version: 0 }, answer: { ok: true } },
})

/** In the order of their page. */
export const offerOperations = [listOffersOperation, addOfferOperation, changeOfferOperation, removeOfferOperation] as const
