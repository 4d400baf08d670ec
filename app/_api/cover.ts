import { z } from 'zod'
import type { DesignCover } from '#lib/coverage/design-cover'
import { lineStatuses } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import { certainties } from '#lib/quantity/certainty'
import { describeNeedPart } from './arithmetic'
import { describeThreadLength, orNull, threadLengthSchema } from './quantities'

export const threadRefSchema = z
  .strictObject({
    threadId: z.string().nullable().meta({ description: 'Null for a thread that was posted, not stored.' }),
    maker: z.string(),
    line: z.string(),
    code: z.string().meta({ description: 'Exact text: 0017 is not 17.' }),
    name: z.string().nullable(),
  })
  .meta({ id: 'ThreadRef' })

export type ThreadRef = z.input<typeof threadRefSchema>

const statusSchema = z.enum(lineStatuses).meta({ description: 'Worst to best; the last two are ready to stitch.' })

/** The figures of a list's answer. */
export const listAnswerFields = {
  status: statusSchema,
  threadCount: z.int(),
  readyCount: z.int(),
  swapCount: z.int(),
  elsewhereCount: z.int(),
  unknownCount: z.int(),
  lotsCount: z.int(),
  shortCount: z.int(),
  shortPutUps: z.int().meta({ description: 'Whole put-ups to buy for the short ones.' }),
  lotPutUps: z.int().meta({ description: 'The same for threads whose lots do not match.' }),
  isIncomplete: z.boolean(),
  isStitchable: z.boolean(),
  isStitchableWithSwaps: z.boolean(),
}

const threadCoverSchema = z
  .strictObject({
    thread: threadRefSchema,
    status: statusSchema,
    certainty: z.enum(certainties),
    need: threadLengthSchema,
    leastStrandTenths: z.int().meta({ description: 'The need lies above this; planned on `need`.' }),
    putUpStrandTenths: z.int(),
    needPutUps: z.int(),
    ownedStrandTenths: z.int(),
    outStrandTenths: z.int(),
    promisedStrandTenths: z.int(),
    freeStrandTenths: z.int(),
    shortStrandTenths: z.int(),
    shortPutUps: z.int(),
    isSomeHeld: z.boolean().meta({ description: 'A part length nobody has judged is held too.' }),
    lots: z.array(z.strictObject({ lot: z.string().nullable(), ownedStrandTenths: z.int(), freeStrandTenths: z.int() })),
    lotToBuy: z.strictObject({ lot: z.string().nullable(), putUps: z.int(), wholePutUps: z.int() }).nullable(),
    elsewhere: z.array(
      z.strictObject({
        why: z.enum(['out', 'promised']),
        strandTenths: z.int(),
        placeId: z.string().nullable(),
        place: z.string().nullable(),
        projectId: z.string().nullable(),
      }),
    ),
    standIn: orNull(threadRefSchema),
    arithmetic: z.array(
      z.strictObject({
        symbol: z.string().nullable(),
        kind: z.enum(['tally', 'stated', 'estimated', 'assumed']),
        strandTenths: z.int(),
        steps: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'ThreadCover' })

export const coverSchema = z
  .strictObject({
    ...listAnswerFields,
    threads: z.array(threadCoverSchema).meta({ description: 'In the order of the key.' }),
    toBuy: z.array(z.strictObject({ thread: threadRefSchema, putUps: z.int() })),
  })
  .meta({ id: 'Cover' })

export const listAnswer = (cover: Pick<DesignCover, keyof typeof listAnswerFields>) => ({
  status: cover.status,
  threadCount: cover.threadCount,
  readyCount: cover.readyCount,
  swapCount: cover.swapCount,
  elsewhereCount: cover.elsewhereCount,
  unknownCount: cover.unknownCount,
  lotsCount: cover.lotsCount,
  shortCount: cover.shortCount,
  shortPutUps: cover.shortPutUps,
  lotPutUps: cover.lotPutUps,
  isIncomplete: cover.isIncomplete,
  isStitchable: cover.isStitchable,
  isStitchableWithSwaps: cover.isStitchableWithSwaps,
})

/** A list's cover as the API gives it. */
export function describeCover(
  cover: DesignCover,
  needs: readonly ThreadNeed[],
  name: { threadOf: (threadId: string) => ThreadRef; placeLabelOf: (placeId: string) => string | null },
): z.input<typeof coverSchema> {
  const needByThread = new Map(needs.map((need) => [need.threadId, need]))
  return {
    ...listAnswer(cover),
    threads: cover.threads.map((thread) => ({
      thread: name.threadOf(thread.threadId),
      status: thread.status,
      certainty: thread.certainty,
      need: describeThreadLength(thread.needStrandTenths),
      leastStrandTenths: thread.leastStrandTenths,
      putUpStrandTenths: thread.putUpStrandTenths,
      needPutUps: thread.needPutUps,
      ownedStrandTenths: thread.ownedStrandTenths,
      outStrandTenths: thread.outStrandTenths,
      promisedStrandTenths: thread.promisedStrandTenths,
      freeStrandTenths: thread.freeStrandTenths,
      shortStrandTenths: thread.shortStrandTenths,
      shortPutUps: thread.shortPutUps,
      isSomeHeld: thread.isSomeHeld,
      lots: thread.lots.map(({ lot, ownedStrandTenths, freeStrandTenths }) => ({ lot, ownedStrandTenths, freeStrandTenths })),
      lotToBuy: thread.lotToBuy,
      elsewhere: thread.elsewhere.map(({ why, strandTenths, placeId, projectId }) => ({
        why,
        strandTenths,
        placeId,
        place: placeId === null ? null : name.placeLabelOf(placeId),
        projectId,
      })),
      standIn: thread.standInThreadId === null ? null : name.threadOf(thread.standInThreadId),
      arithmetic: (needByThread.get(thread.threadId)?.from ?? []).map((part) => ({
        symbol: part.symbol,
        kind: part.kind,
        strandTenths: part.strandTenths,
        steps: describeNeedPart(part),
      })),
    })),
    toBuy: cover.toBuy.map(({ threadId, putUps }) => ({ thread: name.threadOf(threadId), putUps })),
  }
}
