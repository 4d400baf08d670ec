import 'server-only'
import { bagNumbers } from '#lib/project/kit/bags'
import type { MasterList } from '#lib/project/kit/master-list'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import { type KitBagRow, readBagRows } from './kit-rows'

/**
 * The bags as the project wants them now: those that are not on record yet are added, and which are spares follows the project while a bag
 * is not closed. A bag beyond the number stays where something was done to it.
 */
export async function ensureBags({ tx }: Write, master: MasterList): Promise<KitBagRow[]> {
  const { projectId } = master
  const rows = await readBagRows(tx, projectId)
  const byNumber = new Map(rows.map((row) => [row.number, row]))
  const wanted = bagNumbers(master)
  const added = wanted.filter(({ number }) => !byNumber.has(number)).map((bag) => ({ id: newId(), projectId, ...bag }))
  const isOther = (isSpare: boolean) =>
    wanted
      .filter(({ number, isSpare: is }) => is === isSpare && byNumber.get(number)?.isSpare === !isSpare)
      .flatMap(({ number }) => (isOpenToChange(byNumber.get(number)) ? [number] : []))
  const beyond = rows.flatMap(({ id, number, status }) => (number > master.copies && status === 'open' ? [id] : []))
  for (const isSpare of [true, false]) {
    const numbers = isOther(isSpare)
    for (let at = 0; at < numbers.length; at += 500)
      await tx.kitBag.updateMany({
        where: { projectId, number: { in: numbers.slice(at, at + 500) } },
        data: { isSpare, version: { increment: 1 } },
      })
  }
  if (added.length > 0) await tx.kitBag.createMany({ data: added })
  if (beyond.length > 0) await tx.kitBag.deleteMany({ where: { projectId, number: { gt: master.copies }, status: 'open' } })
  return readBagRows(tx, projectId)
}

const isOpenToChange = (bag: KitBagRow | undefined): boolean =>
  bag !== undefined && bag.status !== 'sealed' && bag.status !== 'sold'
