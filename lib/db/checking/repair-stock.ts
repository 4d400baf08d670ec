import 'server-only'
import { type Amount, correctionTo, type Fault, type StockNoun } from '#lib/checking/fault'
import type { Prisma } from '../generated/sqlite/client'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import { journalColumn } from './stock-sums'

/** What is written to a thing's row beside its version. The nouns' rows have these columns in common. */
type Housing = { homePlaceId?: string | null; currentPlaceId?: string | null; outSince?: Date | null; goneAt?: Date | null }

/** Write to a thing's row, raise its version so that an open form notices, and say that it changed. */
export async function setThing(
  { tx, touch }: Write,
  noun: StockNoun,
  id: string,
  data: Housing & { batch?: Prisma.BatchUncheckedUpdateManyInput; count?: number } = {},
): Promise<void> {
  const { batch, count, ...housing } = data
  const raised = { ...housing, version: { increment: 1 } }
  const where = { id }
  touch(noun, id)
  switch (noun) {
    case 'batch':
      await tx.batch.updateMany({ where, data: { ...raised, ...batch } })
      return
    case 'cloth':
      await tx.clothPiece.updateMany({ where, data: raised })
      return
    case 'chart':
      await tx.chart.updateMany({ where, data: { ...raised, ...(count !== undefined && { copies: count }) } })
      return
    case 'notion':
      await tx.notion.updateMany({ where, data: { ...raised, ...(count !== undefined && { count }) } })
  }
}

/** A line of the journal that sets something right; of no amount where only the record, or the whereabouts, were wrong. */
export async function writeCorrection(
  { tx, revision, at }: Write,
  noun: StockNoun,
  id: string,
  line: {
    by?: ReturnType<typeof correctionTo>
    fromPlaceId?: string | null
    toPlaceId?: string | null
    reason: string
    who: string | null
  },
): Promise<void> {
  const { by = null, ...rest } = line
  const data = { id: newId(), revision, at, kind: 'correct', [journalColumn(noun)]: id, ...(by ?? {}), ...rest }
  await tx.movement.create({ data })
}

const amountWords = (noun: StockNoun, { whole, partStrandTenths }: Amount): string =>
  noun === 'batch' && partStrandTenths !== 0 ? `${whole} and a part of ${partStrandTenths / 10} mm of strand` : String(whole)

/** Make record and journal agree, by what she said is true. */
export async function repairBook(
  writing: Write,
  fault: Extract<Fault, { kind: 'stock-differs' }>,
  truth: 'record' | 'journal',
  who: string | null,
): Promise<void> {
  const { noun, held, journal, about } = fault
  const { id } = about
  const [inRecord, inJournal] = [amountWords(noun, held), amountWords(noun, journal)]
  if (truth === 'record') {
    const reason = `the check found ${inRecord} in the record and ${inJournal} in the journal; the record is right`
    await setThing(writing, noun, id)
    await writeCorrection(writing, noun, id, { by: correctionTo(held, journal), reason, who })
    return
  }
  const reason = `the check found ${inRecord} in the record and ${inJournal} in the journal; the journal is right`
  await setThing(writing, noun, id, await asJournal(writing, noun, id, journal))
  await writeCorrection(writing, noun, id, { reason, who })
}

async function asJournal({ tx, at }: Write, noun: StockNoun, id: string, journal: Amount) {
  if (noun === 'cloth') return { goneAt: at }
  if (noun !== 'batch') return { count: journal.whole }
  const { partCertainty } = await tx.batch.findUniqueOrThrow({ where: { id }, select: { partCertainty: true } })
  const isKnown = partCertainty === 'measured' || partCertainty === 'label' || partCertainty === 'guess'
  const certainty =
    journal.partStrandTenths === 0 ? (partCertainty === 'some' ? 'some' : 'none') : isKnown ? partCertainty : 'guess'
  const isEmpty = journal.whole === 0 && certainty === 'none'
  return {
    batch: { wholePutUps: journal.whole, partStrandTenths: journal.partStrandTenths, partCertainty: certainty },
    ...(isEmpty && { goneAt: at }),
  }
}

/** What holds less than nothing, or is gone and holds something, holds nothing. */
export async function setToNothing(
  writing: Write,
  fault: Extract<Fault, { kind: 'below-nothing' | 'gone-holds' }>,
  who: string | null,
): Promise<void> {
  const { about, held } = fault
  const noun = fault.kind === 'gone-holds' ? 'batch' : fault.noun
  const [after, journal]: [Amount, Amount] =
    fault.kind === 'gone-holds'
      ? [{ whole: 0, partStrandTenths: 0 }, fault.journal]
      : [{ whole: Math.max(0, held.whole), partStrandTenths: Math.max(0, held.partStrandTenths) }, held]
  const batch = {
    ...{ wholePutUps: after.whole, partStrandTenths: after.partStrandTenths },
    ...(after.partStrandTenths === 0 && { partCertainty: 'none' }),
  }
  const reason =
    fault.kind === 'gone-holds'
      ? `the check found ${amountWords(noun, held)} in what is gone`
      : `the check found ${amountWords(noun, held)}, less than nothing`
  await setThing(writing, noun, about.id, noun === 'batch' ? { batch } : { count: after.whole })
  await writeCorrection(writing, noun, about.id, { by: correctionTo(after, journal), reason, who })
}

/** Where a thing lives and lies, of any noun. */
export function readHousing({ tx }: Write, noun: StockNoun, id: string) {
  const select = {
    ...{ homePlaceId: true, currentPlaceId: true, outSince: true },
    ...{ homePlace: { select: { goneAt: true } }, currentPlace: { select: { goneAt: true } } },
  } as const
  const where = { id }
  switch (noun) {
    case 'batch':
      return tx.batch.findUniqueOrThrow({ where, select })
    case 'cloth':
      return tx.clothPiece.findUniqueOrThrow({ where, select })
    case 'chart':
      return tx.chart.findUniqueOrThrow({ where, select })
    case 'notion':
      return tx.notion.findUniqueOrThrow({ where, select })
  }
}

/** A place that was taken away is no thing's home any more; what lies in one lies at home, or nowhere that is known. */
export async function leaveGonePlace(writing: Write, noun: StockNoun, id: string, who: string | null): Promise<void> {
  const { homePlaceId, currentPlaceId, outSince, homePlace, currentPlace } = await readHousing(writing, noun, id)
  const home = homePlace?.goneAt ? null : homePlaceId
  const current = currentPlace?.goneAt ? home : currentPlaceId
  const isOut = home !== null && current !== null && home !== current
  await setThing(writing, noun, id, {
    ...{ homePlaceId: home, currentPlaceId: current, outSince: isOut ? (outSince ?? writing.at) : null },
  })
  const reason = 'the check found it in a place that was taken away'
  await writeCorrection(writing, noun, id, { fromPlaceId: currentPlaceId, toPlaceId: current, reason, who })
}

/** Out since it last went where it is, by the journal; or, where the journal does not say, since now. */
export async function setOutSince(writing: Write, noun: StockNoun, id: string): Promise<void> {
  const { homePlaceId, currentPlaceId } = await readHousing(writing, noun, id)
  const isOut = homePlaceId !== null && currentPlaceId !== null && homePlaceId !== currentPlaceId
  const went = isOut
    ? await writing.tx.movement.findFirst({
        where: { [journalColumn(noun)]: id, toPlaceId: currentPlaceId },
        select: { at: true },
        orderBy: [{ revision: 'desc' }, { id: 'desc' }],
      })
    : null
  await setThing(writing, noun, id, { outSince: isOut ? (went?.at ?? writing.at) : null })
}
