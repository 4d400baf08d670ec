import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
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
import { listed, threadLength } from './amounts'
import { nominalWords } from './cloth-count'
import { givenName } from './given'
import { threadName } from './thread'

export const bagStatusWords: Record<BagStatus, string> = sayings({
  open: 'open',
  packed: 'packed',
  checked: 'checked',
  sealed: 'sealed',
  sold: 'sold',
})

export const markWords: Record<MarkStatus, string> = sayings({ there: 'there', short: 'short', wrong: 'wrong' })

export const stepWords: Record<BagStep, string> = sayings({
  pack: 'packed',
  unpack: 'unpacked',
  seal: 'sealed',
  unseal: 'opened again',
  sell: 'sold',
  'take back': 'taken back',
})

const rangeTexts = (numbers: readonly number[]): string[] =>
  rangesOf(numbers).map(({ fromBag, toBag }) => (fromBag === toBag ? String(fromBag) : `${fromBag}–${toBag}`))

/** "1–8, 13", as a form takes it. */
export const bagsText = (numbers: readonly number[]): string => rangeTexts(numbers).join(', ')

/** "bags 1–8 and 13", "bag 7". */
export const bagsWords = (numbers: readonly number[]): string =>
  say('{numbers, plural, one {bag} other {bags}} {rangeTexts}', {
    numbers: numbers.length,
    rangeTexts: listed(rangeTexts(numbers)),
  })

/** What a line of the master list is: "Larkholm 0311 Saffron", "cloth", "needle, size 26". */
export function lineName(line: MasterLine): string {
  switch (line.kind) {
    case 'thread':
      return threadName(line)
    case 'cloth':
      return [say('Cloth'), line.countLabel && nominalWords(line.countLabel), line.name, line.colourName]
        .filter(Boolean)
        .join(', ')
    case 'chart':
      return line.isFile
        ? say('The chart {title}: a file bought for this kit', { title: line.title })
        : say('The chart {title}, bought', { title: line.title })
    case 'item':
      return [line.name, line.size].filter(Boolean).join(', ')
  }
}

/** How much of it goes into one kit: "3.1 m", "10 × 10 in", "2". */
export function perKitWords(line: MasterLine, units: { threadUnit: ThreadLengthUnit; lengthUnit: LengthUnit }): string {
  switch (line.kind) {
    case 'thread':
      return line.perKit.strandTenths === 0
        ? say('as needed')
        : threadLength(line.perKit.strandTenths, line.strands, units.threadUnit)
    case 'cloth': {
      const { widthUm, heightUm } = line.perKit
      return widthUm === null || heightUm === null ? say('1 piece') : formatClothSize({ widthUm, heightUm }, units.lengthUnit)
    }
    case 'chart':
      return '1'
    case 'item':
      return String(line.perKit.count)
  }
}

export type KitRefusal = CutKitsRefused | StepBagsRefused | MarkBagsRefused

const nothingWritten = () => say('Nothing was written.')

/** Why it was not done, with the lines called as the master list calls them. */
export function describeKitRefusal(refusal: KitRefusal, lines: readonly MasterLine[]): string {
  const named = (keys: readonly string[]) =>
    listed(
      keys.map((key) => {
        const line = lines.find((one) => one.key === key)
        return line ? lineName(line) : say('a line that is no longer on the list')
      }),
    )
  const threads = (threadIds: readonly string[]) => named(threadIds.map((threadId) => `thread:${threadId}`))
  switch (refusal.kind) {
    case 'no-such-project':
      return say('This project is no longer there. Go back to the list of projects and look for it anew.')
    case 'project-closed':
      return refusal.status === 'wanted'
        ? say('It is only wanted yet. Plan it first, so that stock is promised to it.')
        : say('It is {status}, so no more stock goes into its kits. {nothingWritten}', {
            status: givenName(refusal.status),
            nothingWritten: nothingWritten(),
          })
    case 'changed-meanwhile':
      return say('Somebody changed this meanwhile, so nothing was written. Load the page again, look, and do it once more.')
    case 'lots-differ':
      return say(
        'No single lot is enough for all bags: {threads}. Buy more of one lot, or tick that several lots will do; the record keeps which bags have which.',
        { threads: threads(refusal.threadIds) },
      )
    case 'nothing-to-cut':
      return refusal.shortThreadIds.length === 0
        ? say('Every bag has its cuts already.')
        : say('There is nothing to cut from: {threads}. A cut is never joined, so remnants do not help. {nothingWritten}', {
            threads: threads(refusal.shortThreadIds),
            nothingWritten: nothingWritten(),
          })
    case 'no-such-bag':
      return say('There is no bag {bag} in this batch.', { bag: refusal.bag })
    case 'no-chart-left':
      return refusal.isOtherOwner
        ? say(
            'The chart on record is another owner’s. Each kit takes one bought chart of its own: bring in {wanted, plural, one {# copy} other {# copies}} for this owner. {nothingWritten}',
            { wanted: refusal.wanted, nothingWritten: nothingWritten() },
          )
        : say(
            'Each kit has one bought chart: {wanted} wanted, {copies} on record. Buy more, or correct how many copies there are. {nothingWritten}',
            { wanted: refusal.wanted, copies: refusal.copies, nothingWritten: nothingWritten() },
          )
    case 'too-few-items':
      return say(
        '{name}: {wanted} go into these bags, {have} are on record. Count them; correct the record or buy more. {nothingWritten}',
        { name: refusal.name, wanted: refusal.wanted, have: refusal.have, nothingWritten: nothingWritten() },
      )
    case 'not-from-here':
      return say('Bag {bag} is {bagStatus}, so it cannot be {step} now. {nothingWritten}', {
        bag: refusal.bag,
        bagStatus: bagStatusWords[refusal.status],
        step: stepWords[refusal.step],
        nothingWritten: nothingWritten(),
      })
    case 'not-cut':
      return say('Bag {bag} has no cut on record of {named}. Cut first, so that the record knows its lot.', {
        bag: refusal.bag,
        named: named(refusal.keys),
      })
    case 'not-checked':
      return say('Bag {bag} cannot be sealed: nobody has looked for {named} yet.', {
        bag: refusal.bag,
        named: named(refusal.keys),
      })
    case 'at-fault':
      return say('Bag {bag} cannot be sealed: {faults}. Mend it, then mark it there.', {
        bag: refusal.bag,
        faults: refusal.faults.map(({ key, status }) => say('{named} is {status}', { named: named([key]), status })).join('; '),
      })
    case 'no-reason':
      return say('Say why: it stays in the record of the bag.')
    case 'not-packed':
      return say('Bag {bag} is not packed yet; there is nothing to check.', { bag: refusal.bag })
    case 'closed':
      return say('Bag {bag} is {status}. Open it again first, and say why.', {
        bag: refusal.bag,
        status: bagStatusWords[refusal.status],
      })
    case 'no-such-line':
      return say('The list of what goes into a kit was changed meanwhile. Load the page again.')
    case 'same-person':
      return say('Bag {bag} was packed by {who}: another pair of eyes checks it. If nobody else is at hand, tick so.', {
        bag: refusal.bag,
        who: refusal.who,
      })
  }
}

/** Said once where kits are packed. */
export const sharpsCaution = () =>
  say(
    'Needles are sharp: count them in when a bag is packed and again when it is checked, keep none loose on the table, and keep kits from small children and pets.',
  )
