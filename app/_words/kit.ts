import { formatClothSize } from '#language/lengths'
import type { CutKitsRefused } from '#lib/db/kit-bag/cut-kits'
import type { MarkBagsRefused } from '#lib/db/kit-bag/mark-bags'
import type { StepBagsRefused } from '#lib/db/kit-bag/step-bags'
import type { BagStatus } from '#lib/project/kit/bag-status'
import type { BagStep } from '#lib/project/kit/bags'
import type { MarkStatus } from '#lib/project/kit/check'
import type { MasterLine } from '#lib/project/kit/master-list'
import { rangesOf } from '#lib/project/kit/record'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { counted, listed, threadLength } from './amounts'
import { threadName } from './thread'

export const bagStatusWords: Record<BagStatus, string> = {
  open: 'open',
  packed: 'packed',
  checked: 'checked',
  sealed: 'sealed',
  sold: 'sold',
}

export const markWords: Record<MarkStatus, string> = { there: 'there', short: 'short', wrong: 'wrong' }

export const stepWords: Record<BagStep, string> = {
  pack: 'packed',
  unpack: 'unpacked',
  seal: 'sealed',
  unseal: 'opened again',
  sell: 'sold',
  'take back': 'taken back',
}

const rangeTexts = (numbers: readonly number[]): string[] =>
  rangesOf(numbers).map(({ fromBag, toBag }) => (fromBag === toBag ? String(fromBag) : `${fromBag}–${toBag}`))

/** "1–8, 13", as a form takes it. */
export const bagsText = (numbers: readonly number[]): string => rangeTexts(numbers).join(', ')

/** "bags 1–8 and 13", "bag 7". */
export const bagsWords = (numbers: readonly number[]): string =>
  `${numbers.length === 1 ? 'bag' : 'bags'} ${listed(rangeTexts(numbers))}`

/** What a line of the master list is: "Larkholm 0311 Saffron", "cloth", "needle, size 26". */
export function lineName(line: MasterLine): string {
  switch (line.kind) {
    case 'thread':
      return threadName(line)
    case 'cloth':
      return ['Cloth', line.countLabel && `${line.countLabel}-count`, line.name, line.colourName].filter(Boolean).join(', ')
    case 'chart':
      return line.isFile ? `The chart ${line.title}: a file bought for this kit` : `The chart ${line.title}, bought`
    case 'item':
      return [line.name, line.size].filter(Boolean).join(', ')
  }
}

/** How much of it goes into one kit: "3.1 m", "10 × 10 in", "2". */
export function perKitWords(line: MasterLine, units: { threadUnit: ThreadLengthUnit; lengthUnit: LengthUnit }): string {
  switch (line.kind) {
    case 'thread':
      return line.perKit.strandTenths === 0 ? 'as needed' : threadLength(line.perKit.strandTenths, line.strands, units.threadUnit)
    case 'cloth': {
      const { widthUm, heightUm } = line.perKit
      return widthUm === null || heightUm === null ? '1 piece' : formatClothSize({ widthUm, heightUm }, units.lengthUnit)
    }
    case 'chart':
      return '1'
    case 'item':
      return String(line.perKit.count)
  }
}

export type KitRefusal = CutKitsRefused | StepBagsRefused | MarkBagsRefused

const nothingWritten = 'Nothing was written.'

/** Why it was not done, with the lines called as the master list calls them. */
export function describeKitRefusal(refusal: KitRefusal, lines: readonly MasterLine[]): string {
  const named = (keys: readonly string[]) =>
    listed(
      keys.map((key) => {
        const line = lines.find((one) => one.key === key)
        return line ? lineName(line) : 'a line that is no longer on the list'
      }),
    )
  const threads = (threadIds: readonly string[]) => named(threadIds.map((threadId) => `thread:${threadId}`))
  switch (refusal.kind) {
    case 'no-such-project':
      return 'This project is no longer there. Go back to the list of projects and look for it anew.'
    case 'project-closed':
      return refusal.status === 'wanted'
        ? 'It is only wanted yet. Plan it first, so that stock is promised to it.'
        : `It is ${refusal.status}, so no more stock goes into its kits. ${nothingWritten}`
    case 'changed-meanwhile':
      return 'Somebody changed this meanwhile, so nothing was written. Load the page again, look, and do it once more.'
    case 'lots-differ':
      return `No single lot is enough for all bags: ${threads(refusal.threadIds)}. Buy more of one lot, or tick that several lots will do; the record keeps which bags have which.`
    case 'nothing-to-cut':
      return refusal.shortThreadIds.length === 0
        ? 'Every bag has its cuts already.'
        : `There is nothing to cut from: ${threads(refusal.shortThreadIds)}. A cut is never joined, so remnants do not help. ${nothingWritten}`
    case 'no-such-bag':
      return `There is no bag ${refusal.bag} in this batch.`
    case 'no-chart-left':
      return refusal.isOtherOwner
        ? `The chart on record is another owner’s. Each kit takes one bought chart of its own: bring in ${counted(refusal.wanted, 'copy')} for this owner. ${nothingWritten}`
        : `Each kit has one bought chart: ${refusal.wanted} wanted, ${refusal.copies} on record. Buy more, or correct how many copies there are. ${nothingWritten}`
    case 'too-few-items':
      return `${refusal.name}: ${refusal.wanted} go into these bags, ${refusal.have} are on record. Count them; correct the record or buy more. ${nothingWritten}`
    case 'not-from-here':
      return `Bag ${refusal.bag} is ${bagStatusWords[refusal.status]}, so it cannot be ${stepWords[refusal.step]} now. ${nothingWritten}`
    case 'not-cut':
      return `Bag ${refusal.bag} has no cut on record of ${named(refusal.keys)}. Cut first, so that the record knows its lot.`
    case 'not-checked':
      return `Bag ${refusal.bag} cannot be sealed: nobody has looked for ${named(refusal.keys)} yet.`
    case 'at-fault':
      return `Bag ${refusal.bag} cannot be sealed: ${refusal.faults.map(({ key, status }) => `${named([key])} is ${status}`).join('; ')}. Mend it, then mark it there.`
    case 'no-reason':
      return 'Say why: it stays in the record of the bag.'
    case 'not-packed':
      return `Bag ${refusal.bag} is not packed yet; there is nothing to check.`
    case 'closed':
      return `Bag ${refusal.bag} is ${refusal.status}. Open it again first, and say why.`
    case 'no-such-line':
      return 'The list of what goes into a kit was changed meanwhile. Load the page again.'
    case 'same-person':
      return `Bag ${refusal.bag} was packed by ${refusal.who}: another pair of eyes checks it. If nobody else is at hand, tick so.`
  }
}

/** Said once where kits are packed. */
export const sharpsCaution =
  'Needles are sharp: count them in when a bag is packed and again when it is checked, keep none loose on the table, and keep kits from small children and pets.'
