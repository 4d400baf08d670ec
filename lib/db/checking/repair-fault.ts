import 'server-only'
import { type Fault, pathsToWrite, type Repair, repairsOf, type StockNoun, standingAbove } from '#lib/checking/fault'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { keepNeedsAnew } from '../answers/get-answers'
import { dropNeedFile } from '../answers/need-file'
import { database } from '../client'
import { tick } from '../loan/settle-lines'
import { newId } from '../new-id'
import { readSnapshot } from '../read-snapshot'
import { write } from '../write'
import type { Write } from '../write-gate'
import { findAgain } from './find-again'
import { readTree } from './find-place-faults'
import { bringBack, clearFile, drawThumb, setFaultAside } from './repair-files'
import { leaveGonePlace, repairBook, setOutSince, setThing, setToNothing } from './repair-stock'
import { rowsInWrite } from './rows-in-write'

export type RepairRefused =
  /** It is not among what can be done about this fault. */
  | { kind: 'not-offered' }
  /** Somebody has set it right meanwhile, or it went with another repair. */
  | { kind: 'no-longer-there' }
  /** It is there, and its figures are others than those that were shown. */
  | { kind: 'changed-meanwhile' }
  /** No good backup has the file. */
  | { kind: 'in-no-backup' }
  | { kind: 'photo-unreadable' }

/** `backup`: the one a file was brought back from. */
export type Repaired = { backup: string | null }

/**
 * Do what was asked about one fault: in one write, in which the fault is looked for once more. Where it is there no longer, or its figures
 * are others than those a person was shown, nothing is changed.
 */
export async function repairFault(
  fault: Fault,
  repair: Repair,
  { who = null }: { who?: string | null } = {},
): Promise<Result<Repaired, RepairRefused>> {
  if (!repairsOf(fault).includes(repair)) return refused({ kind: 'not-offered' })
  switch (repair) {
    case 'bring-back':
    case 'draw-thumb':
    case 'set-aside':
      return repairFile(fault, repair)
    case 'drop-snapshot':
      await dropNeedFile(database().url)
      keepNeedsAnew()
      return ok({ backup: null })
    case 'answer-anew':
      return write<Repaired, RepairRefused>(async ({ touch }) => {
        touch('everything', '*')
        return ok({ backup: null })
      })
    default:
      return write<Repaired, RepairRefused>(async (writing) => {
        const standing = await findAgain(fault, rowsInWrite(writing))
        if (standing === 'gone') return refused({ kind: 'no-longer-there' })
        if (standing === 'another') return refused({ kind: 'changed-meanwhile' })
        await carryOut(writing, fault, repair, who)
        return ok({ backup: null })
      })
  }
}

/** What concerns the disk alone is no write: it is looked for once more, and then done. */
async function repairFile(
  fault: Fault,
  repair: 'bring-back' | 'draw-thumb' | 'set-aside',
): Promise<Result<Repaired, RepairRefused>> {
  const standing = await readSnapshot(database(), (rows) => findAgain(fault, rows))
  if (standing === 'gone') return refused({ kind: 'no-longer-there' })
  if (standing === 'another') return refused({ kind: 'changed-meanwhile' })
  if (fault.kind === 'file-missing' && repair === 'bring-back') return bringBack(fault)
  if (fault.kind === 'thumb-missing') {
    const drawn = await drawThumb(fault.file)
    return drawn.ok ? ok({ backup: null }) : drawn
  }
  if (fault.kind === 'file-unnamed' || fault.kind === 'half-written' || fault.kind === 'staged-old')
    await setFaultAside(fault, new Date())
  return ok({ backup: null })
}

async function carryOut(writing: Write, fault: Fault, repair: Repair, who: string | null): Promise<void> {
  const { tx, touch } = writing
  const { id } = fault.about
  switch (fault.kind) {
    case 'stock-differs':
      return repairBook(writing, fault, repair === 'trust-record' ? 'record' : 'journal', who)
    case 'below-nothing':
    case 'gone-holds':
      return setToNothing(writing, fault, who)
    case 'in-gone-place':
      return leaveGonePlace(writing, fault.about.noun as StockNoun, id, who)
    case 'out-differs':
      return setOutSince(writing, fault.about.noun as StockNoun, id)
    case 'place-in-circle':
    case 'place-in-gone-place':
    case 'place-path-differs':
      return settlePlace(writing, fault.kind, id)
    case 'bag-gone':
      await tx.project.updateMany({ where: { id }, data: { placeId: null, version: { increment: 1 } } })
      return touch('project', id)
    case 'promise-closed':
      await tx.stockPromise.deleteMany({ where: { id: fault.promiseId } })
      return setThing(writing, 'batch', id)
    case 'promise-beyond':
      for (const { promiseId, keepsStrandTenths } of fault.promises)
        if (keepsStrandTenths > 0)
          await tx.stockPromise.updateMany({ where: { id: promiseId }, data: { strandTenths: keepsStrandTenths } })
      await tx.stockPromise.deleteMany({
        where: {
          batchId: id,
          id: { in: fault.promises.flatMap(({ promiseId, keepsStrandTenths }) => (keepsStrandTenths > 0 ? [] : promiseId)) },
        },
      })
      return setThing(writing, 'batch', id)
    case 'lent-elsewhere':
      return tickOff(writing, [fault.lineId])
    case 'lent-twice':
      return tickOff(writing, fault.lineIds)
    case 'looked-for-here':
      return closeQuestions(writing, [fault.askedId], fault.isGone ? 'given up' : 'found', who)
    case 'looked-for-twice':
      return closeQuestions(writing, fault.askedIds, 'given up', who)
    case 'occasion-gone':
      await tx.project.updateMany({ where: { id }, data: { occasionKey: null, version: { increment: 1 } } })
      return touch('project', id)
    case 'label-of-nothing':
      await tx.labelPrint.deleteMany({ where: { id } })
      return
    case 'told-apart-gone':
      await tx.toldApart.deleteMany({ where: { id } })
      return
    case 'revision-behind': {
      const revision = fault.latest + 1
      await tx.revision.update({ where: { id: 'main' }, data: { number: revision } })
      await tx.change.create({ data: { id: newId(), revision, noun: 'everything', nounId: '*' } })
      return
    }
    case 'file-missing':
      // Of a line in a log, or a kept file, the row itself is what is named.
      return clearFile(writing, fault)
    default:
      throw new RangeError(`repairFault: ${fault.kind}`)
  }
}

/** Put a place where it can stand, and write the paths of it and all within it. */
async function settlePlace(
  writing: Write,
  kind: 'place-in-circle' | 'place-in-gone-place' | 'place-path-differs',
  placeId: string,
): Promise<void> {
  const { tx, touch } = writing
  const places = await readTree(rowsInWrite(writing))
  const place = places.get(placeId)
  if (!place) return
  if (kind !== 'place-path-differs') {
    const parentId = kind === 'place-in-circle' ? null : standingAbove(places, placeId)
    await tx.place.updateMany({ where: { id: placeId }, data: { parentId, version: { increment: 1 } } })
    places.set(placeId, { ...place, parentId })
    touch('place', placeId)
  }
  const top = places.get(placeId) ?? place
  // A branch has few places, and each gets a path of its own.
  for (const { id, path } of pathsToWrite(places, top)) {
    await tx.place.updateMany({ where: { id }, data: { path, version: { increment: 1 } } })
    touch('place', id)
  }
}

async function tickOff({ tx, at }: Write, lineIds: readonly string[]): Promise<void> {
  const lines = await tx.loanLine.findMany({ where: { id: { in: [...lineIds] } }, select: { id: true, loanId: true } })
  await tick(tx, lines, { on: calendarDay(at), note: 'ticked off by the check' })
}

async function closeQuestions(
  { tx, at }: Write,
  askedIds: readonly string[],
  status: 'found' | 'given up',
  who: string | null,
): Promise<void> {
  await tx.missingThing.updateMany({
    where: { id: { in: [...askedIds] }, status: 'open' },
    data: { status, settledAt: at, settledBy: who, version: { increment: 1 } },
  })
}
