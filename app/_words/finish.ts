import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { FinishRecord, Sent } from '#lib/db/finish/read-finishes'
import type { SetFrameRefused } from '#lib/db/project/set-frame'
import type { CostLine } from '#lib/project/finish-cost'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { Settings } from '#lib/settings/settings'
import { counted, threadLength } from './amounts'
import { areaWords, roughSize } from './cloth-size'
import { hoursFigure } from './hours'
import { priceWords } from './price'
import { threadName } from './thread'

/** "14 × 11 in outside, as measured", or what the sum says. */
export function frameWords({ measured, reckoned }: FinishRecord['frame'], unit: LengthUnit): string | null {
  if (measured) return say('{measured} outside, as measured', { measured: formatClothSize(measured, unit) })
  return reckoned && say('an opening of {roughSize}, by the sum', { roughSize: roughSize(reckoned.opening, unit) })
}

/** "since Tue 3 Nov 2026, due Tue 1 Dec 2026, GBP 45.00". */
export function sentWords({ fromOn, dueOn, closedOn, priceMinor }: Sent, currency: string): string {
  const price = priceMinor === null ? say('no price said') : priceWords(priceMinor, currency)
  return closedOn === null
    ? [say('since {fromOn}', { fromOn: formatDate(fromOn) }), dueOn && say('due {dueOn}', { dueOn: formatDate(dueOn) }), price]
        .filter(Boolean)
        .join(', ')
    : say('{fromOn} to {closedOn}, {price}', { fromOn: formatDate(fromOn), closedOn: formatDate(closedOn), price })
}

/** How it is known what was used of a thread. */
export const usedHowWords = sayings({ measured: 'what was left was measured', weighed: 'what was left was weighed' })

/** What a line of the cost is for, and how its figure comes about. */
export function costWords(
  line: CostLine,
  record: Pick<FinishRecord, 'colours' | 'cloth' | 'sent' | 'title'>,
  settings: Pick<Settings, 'currency' | 'threadUnit' | 'lengthUnit'>,
): { label: string; how: string } {
  const { currency, threadUnit, lengthUnit } = settings
  const price = (minor: number) => priceWords(minor, currency)
  switch (line.kind) {
    case 'thread': {
      const thread = record.colours.find((colour) => colour.thread.id === line.threadId)?.thread
      const used = threadLength(line.strandTenths, thread?.strands ?? 1, threadUnit)
      const putUp = threadLength(line.putUpStrandTenths, thread?.strands ?? 1, threadUnit)
      return {
        label: thread ? threadName(thread) : say('Thread'),
        how:
          line.putUpPriceMinor === null
            ? say('{used}; its line has no price', { used })
            : say('{used} of {putUp} at {price}', { used, putUp, price: price(line.putUpPriceMinor) }),
      }
    }
    case 'cloth': {
      const piece = record.cloth.find(({ id }) => id === line.pieceId)
      const used = areaWords(line.usedUm2, lengthUnit)
      const whole = areaWords(line.ofUm2, lengthUnit)
      return {
        label: piece ? [piece.label, piece.name, piece.colourName].filter(Boolean).join(', ') : say('Cloth'),
        how:
          line.priceMinor === null
            ? say('{used}; the piece has no price', { used })
            : say('{used} of {whole} at {price}{isShare, select, yes {, its share of the piece it was cut from} other {}}', {
                used,
                whole,
                price: price(line.priceMinor),
                isShare: line.isShare,
              }),
      }
    }
    case 'chart':
      return {
        label: say('The chart'),
        how:
          line.priceMinor === null
            ? say('it has no price')
            : line.copies > 1
              ? say('{copies, plural, one {# copy} other {# copies}} at {price}', {
                  copies: line.copies,
                  price: price(line.priceMinor),
                })
              : line.designs > 1
                ? say('one of its {designs} designs, of {price}', { designs: line.designs, price: price(line.priceMinor) })
                : '',
      }
    case 'sent': {
      const sent = record.sent.find(({ loanId }) => loanId === line.loanId)
      return {
        label: sent?.place.label ?? say('Finishing'),
        how: line.priceMinor === null ? say('no price was said') : (sent?.place.kind ?? ''),
      }
    }
    case 'other':
      return { label: say('Other costs'), how: say('as said') }
  }
}

/** What is not in a piece's cost since nobody put down that any was used: "its thread", "its cloth". */
export const uncounted = ({ colours, cloth }: Pick<FinishRecord, 'colours' | 'cloth'>): string[] => [
  ...(colours.length === 0 ? [say('its thread')] : []),
  ...(cloth.length === 0 ? [say('its cloth')] : []),
]

/** Whether there is more to a piece's cost than its sum says. */
export const costsMore = (record: Pick<FinishRecord, 'colours' | 'cloth' | 'cost'>): boolean =>
  record.cost.unknown > 0 || uncounted(record).length > 0

export const costKindWords = sayings({
  thread: 'Thread used, at the price of its line',
  cloth: 'Cloth',
  chart: 'Charts',
  sent: 'Framers and finishers',
  other: 'Other costs',
})

/** "3 pieces, 61,240 stitches and 312.5 hours", as far as each is known. */
export const yearParts = ({
  pieces,
  stitches,
  hoursTenths,
}: {
  pieces: number
  stitches: number
  hoursTenths: number
}): string[] => [
  counted(pieces, 'piece'),
  ...(stitches > 0 ? [counted(stitches, 'stitch')] : []),
  ...(hoursTenths > 0 ? [say('{hoursFigure} hours', { hoursFigure: hoursFigure(hoursTenths) })] : []),
]

/** Why frame and cost were not kept. */
export const frameRefusalWords = (refusal: SetFrameRefused): string => {
  switch (refusal.kind) {
    case 'no-such-project':
      return say('This project is no longer there. Go back to the list of projects and look for it anew.')
    case 'changed-meanwhile':
      return say('Somebody changed this meanwhile, so nothing was written. Load the page again, look, and do it once more.')
    case 'not-stitched':
      return say('It is not stitched yet: say that the last stitch is made, or finish it, then say what frame it went into.')
  }
}
