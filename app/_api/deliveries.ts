import { z } from 'zod'
import type { DeliveryRefused } from '#lib/db/delivery/enter-delivery'
import type { LookUp } from '#lib/db/delivery/look-up'
import type { UndoDeliveryRefused } from '#lib/db/delivery/undo-delivery'
import type { BarcodeRefused } from '#lib/db/thread/barcodes'
import { barcodeKey } from '#lib/thread/barcode'
import { placeRefSchema } from './collection'
import { threadRefSchema } from './cover'
import { namedThread } from './describe-stock'
import { operation } from './operation'
import { Problem } from './problem'
import { idText, orNull, putUpStrandTenths, shortText } from './quantities'
import { exampleThread } from './stock'
import { noSuch } from './stock-refusal'

const barcodeText = shortText.max(100).refine((text) => barcodeKey(text) !== null, {
  message: 'Nothing of it can be read.',
  params: { accepted: 'what the bars say' },
})

const exampleHome = { placeId: 'p2', label: 'T2.1-14' }

/** Made by the sender. Kept as the id of a line of the journal. */
const entryIdText = z
  .string()
  .regex(/^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/, 'It is not a UUID in small letters.')
  .meta({ description: 'A UUID the sender makes. The same entry sent again is received once.' })

const deliveryThreadSchema = z
  .strictObject({
    thread: threadRefSchema,
    lineId: z.string(),
    strands: z.int(),
    putUpWord: z.string(),
    lotsMatter: z.boolean(),
    lab: orNull(z.strictObject({ L: z.number(), a: z.number(), b: z.number() })),
    isSolid: z.boolean(),
    heldPutUps: z.int().meta({ description: 'Whole put-ups the owner holds, out ones too.' }),
    homes: z.array(z.strictObject({ placeId: z.string(), label: z.string(), pathText: z.string(), putUps: z.int() })),
    putUps: z.array(z.strictObject({ word: z.string().nullable(), strandTenths: z.int() })),
    lots: z.array(z.string()),
    orders: z.array(
      z.strictObject({
        orderId: z.string(),
        putUps: z.int(),
        receivedPutUps: z.int(),
        lot: z.string().nullable(),
        orderedOn: z.string(),
        supplier: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'DeliveryThread' })

export const lookUpForDeliveryOperation = operation({
  method: 'get',
  path: '/deliveries/look-up',
  id: 'lookUpForDelivery',
  group: 'Stock',
  summary: 'The threads a scanned or typed text means',
  description:
    'By remembered barcode, by exact code in the line named, by exact code anywhere (maker or line may stand before it), at last by name. With each thread: where it lives, the put-ups it has come in, and what is on order.',
  query: z.strictObject({
    text: z.string().max(200),
    owner: idText,
    line: idText.optional().meta({ description: 'Id of the line one is at.' }),
  }),
  answer: z
    .strictObject({
      how: z.enum(['barcode', 'code', 'name', 'none']),
      isBarcode: z.boolean().meta({ description: 'Digits alone, and more than a code of thread has.' }),
      threads: z.array(deliveryThreadSchema),
    })
    .meta({ id: 'DeliveryLookUp' }),
  answerMeans: 'At most eight threads.',
  example: {
    answer: {
      how: 'code',
      isBarcode: false,
      threads: [
        {
          thread: exampleThread,
          lineId: 'l1',
          strands: 6,
          putUpWord: 'skein',
          lotsMatter: false,
          lab: null,
          isSolid: true,
          heldPutUps: 2,
          homes: [{ ...exampleHome, pathText: 'T2.1 › T2.1-14', putUps: 2 }],
          putUps: [{ word: null, strandTenths: 480_000 }],
          lots: [],
          orders: [],
        },
      ],
    },
  },
})

export const describeLookUp = ({ how, isBarcode, threads }: LookUp): z.input<typeof lookUpForDeliveryOperation.answer> => ({
  how,
  isBarcode,
  threads: threads.map(({ line, lab, homes, putUps, lots, orders, heldPutUps, ...thread }) => ({
    thread: namedThread({ ...thread, line }),
    lineId: line.id,
    strands: line.strands,
    putUpWord: line.putUpWord,
    lotsMatter: line.lotsMatter,
    lab,
    isSolid: line.dyeing === 'solid',
    heldPutUps,
    homes: homes.map(({ id, ...home }) => ({ placeId: id, ...home })),
    putUps,
    lots,
    orders: orders.map(({ id, ...order }) => ({ orderId: id, ...order })),
  })),
})

export const enterDeliveryOperation = operation({
  method: 'post',
  path: '/deliveries',
  id: 'enterDelivery',
  group: 'Stock',
  summary: 'Receive one entry of a delivery',
  description:
    'Whole put-ups of one thread, laid with their like at their home. `entryId` makes it safe to send again: what was received is not received twice, also after a restart.',
  body: z
    .strictObject({
      entryId: entryIdText,
      threadId: idText,
      ownerId: idText,
      wholePutUps: z.int().min(1).max(10_000),
      lot: shortText.nullable().default(null),
      putUpWord: shortText.max(40).nullable().default(null).meta({ description: 'Null: as the line says.' }),
      putUpStrandTenths: putUpStrandTenths
        .nullable()
        .default(null)
        .meta({ description: 'Null: of the order, else the line’s own.' }),
      homePlaceId: idText.nullable().default(null),
      homePlaceLabel: z
        .string()
        .trim()
        .min(1)
        .max(100)
        .nullable()
        .default(null)
        .meta({ description: 'Its home by label instead of id; made when no place has it.' }),
      orderId: idText.nullable().default(null).meta({ description: 'An open order of this thread and owner it came by.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'DeliveryEntry' }),
  answer: z
    .strictObject({ batchId: z.string(), isRepeat: z.boolean(), home: orNull(placeRefSchema) })
    .meta({ id: 'DeliveryAnswer' }),
  answerMeans: 'Received, now or before (`isRepeat`).',
  problems: ['refused'],
  example: {
    body: {
      entryId: '018f3c1e-7a52-7c4e-9b1d-2f6a0d3e5b71',
      threadId: 't1',
      ownerId: 'o1',
      wholePutUps: 6,
      homePlaceId: 'p2',
    },
    answer: { batchId: 'b1', isRepeat: false, home: exampleHome },
  },
})

export const undoDeliveryOperation = operation({
  method: 'post',
  path: '/deliveries/{entryId}/undo',
  id: 'undoDelivery',
  group: 'Stock',
  summary: 'Take one entry of a delivery back',
  description:
    'Refused when some of it was used, promised, moved into another batch or removed since. Asked again it is answered again.',
  pathParameters: z.strictObject({ entryId: entryIdText }),
  body: z
    .strictObject({
      orderId: idText.nullable().default(null).meta({ description: 'The order it was received by.' }),
      who: shortText.nullable().default(null),
    })
    .meta({ id: 'DeliveryUndo' }),
  answer: z.strictObject({ batchId: z.string(), isRepeat: z.boolean() }).meta({ id: 'DeliveryUndone' }),
  answerMeans: 'Taken back, now or before.',
  problems: ['not-found', 'refused'],
  example: { body: {}, answer: { batchId: 'b1', isRepeat: false } },
})

export const rememberBarcodeOperation = operation({
  method: 'post',
  path: '/barcodes',
  id: 'rememberBarcode',
  group: 'Stock',
  summary: 'Remember which thread a barcode is of',
  body: z.strictObject({ code: barcodeText, threadId: idText }).meta({ id: 'BarcodeRequest' }),
  answer: z
    .strictObject({ code: z.string().meta({ description: 'As it is kept: a number of goods filled up to fourteen digits.' }) })
    .meta({ id: 'BarcodeAnswer' }),
  answerMeans: 'Remembered.',
  problems: ['refused'],
  example: { body: { code: '2012345678903', threadId: 't1' }, answer: { code: '02012345678903' } },
})

export const forgetBarcodeOperation = operation({
  method: 'post',
  path: '/barcodes/forget',
  id: 'forgetBarcode',
  group: 'Stock',
  summary: 'Forget a barcode',
  body: z.strictObject({ code: barcodeText }).meta({ id: 'BarcodeToForget' }),
  answer: z.strictObject({ threadId: z.string() }).meta({ id: 'BarcodeForgotten' }),
  answerMeans: 'Forgotten; the thread it was of.',
  problems: ['not-found'],
  example: { body: { code: '2012345678903' }, answer: { threadId: 't1' } },
})

/** Why an entry was not received, in words that also stand on the screen at the drawers. */
export function describeDeliveryRefusal(refusal: DeliveryRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-thread':
      return noSuch('thread', 'threadId')
    case 'no-such-owner':
      return noSuch('owner', 'ownerId')
    case 'no-such-place':
      return noSuch('place', 'homePlaceId')
    case 'no-such-order':
      return new Problem(
        'refused',
        'That order is closed, or of another thread or owner. Receive it without, or look at the order.',
      )
    case 'changed-meanwhile':
      return new Problem('refused', 'Somebody changed what lies there meanwhile. Send it again.')
    case 'nothing-received':
      return new Problem('refused', 'Nothing is received: no put-up.')
    case 'not-equal':
      return new Problem('refused', 'It cannot be laid with what lies at its home: another lot, put-up or owner.')
    case 'entry-id-taken':
      return new Problem('refused', 'Another entry has this entryId. Make a new one.')
  }
}

export function describeUndoRefusal(refusal: UndoDeliveryRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-entry':
      return new Problem('not-found', 'No entry of a delivery has this id.')
    case 'no-such-batch':
      return new Problem('refused', 'It was laid together with other thread since, or removed. Correct the figure there instead.')
    case 'changed-meanwhile':
      return new Problem('refused', 'Somebody changed it meanwhile. Try again.')
    case 'used-since':
      return new Problem(
        'refused',
        `Only ${refusal.wholePutUps} of the ${refusal.receivedPutUps} are still there: some were used or taken since. Correct the figure instead.`,
      )
    case 'promised-since':
      return new Problem('refused', 'Some of it was promised to a project since. Release that promise first.')
  }
}

export function describeBarcodeProblem(refusal: BarcodeRefused): Problem {
  switch (refusal.kind) {
    case 'no-such-thread':
      return noSuch('thread', 'threadId')
    case 'barcode-taken':
      return new Problem('refused', `These bars are on record for another thread (${refusal.threadId}). Forget them there first.`)
    case 'no-such-barcode':
      return new Problem('not-found', 'No thread has this barcode.')
  }
}
