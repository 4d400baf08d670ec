import { say } from '#language/say'
import type { ListDetail, ShownLine } from '#lib/db/buying/queries'
import { toCsv } from '#lib/importing/escape-csv'
import { packsOf, type ShopLineStatus } from '#lib/planning/buying/shop-list'
import type { ClassSheet } from '#lib/printing/class-sheet'
import { formatPrice } from '#lib/quantity/money'
import { textKey } from '#lib/quantity/text-key'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { compareExact } from '#lib/stock/batch'
import { expectedWords, packedWords } from '#words/buying'
import { priceWords } from '#words/price'
import { threadName, threadTitle } from '#words/thread'

export type ListBy = 'supplier' | 'maker'
type Said = { by: ListBy; unit: ThreadLengthUnit; currency: string; withPrices: boolean }

export const lineName = ({ thread, text }: Pick<ShownLine, 'thread' | 'text'>): string =>
  thread ? threadName({ makerName: thread.line.makerName, code: thread.code, name: thread.name }) : (text ?? '')

/** "3 skeins of 8 m"; of what is no thread, how many where it is more than one. */
export function amountWords(line: ShownLine, unit: ThreadLengthUnit): string {
  if (!line.thread) return line.putUps === 1 ? say('one') : String(line.putUps)
  const { strands, putUpWord } = line.thread.line
  return packedWords({ ...line, putUpWord: line.putUpWord ?? putUpWord, strands }, unit)
}

/** What the line says beside how many: the line of thread, lot, note. Where it stands under a shop, the shop goes without saying. */
export const noteWords = (line: ShownLine): string[] =>
  [
    line.thread?.line.name ?? '',
    line.matchLot !== null
      ? say('of lot {matchLot}', { matchLot: line.matchLot })
      : line.isOneLot && line.putUps > 1
        ? say('all of one lot')
        : '',
    line.note ?? '',
  ].filter((note) => note !== '')

export const linePrice = (line: ShownLine): number | null => (line.priceMinor === null ? null : line.priceMinor * packsOf(line))

/** Lines under the shop they are bought in, or their maker: named ones by name, then what anybody may sell, words at the end. */
export function groupLines(lines: readonly ShownLine[], by: ListBy): { title: string; lines: ShownLine[] }[] {
  const groups = new Map<string, ShownLine[]>()
  const last = by === 'supplier' ? say('Anywhere') : say('Other things')
  for (const line of lines) {
    const title = (by === 'supplier' ? line.supplier : line.thread?.line.makerName) ?? last
    groups.set(title, [...(groups.get(title) ?? []), line])
  }
  return [...groups]
    .map(([title, some]) => ({ title, lines: some }))
    .sort((a, b) => Number(a.title === last) - Number(b.title === last) || compareExact(textKey(a.title), textKey(b.title)))
}

const statusWords = (): Record<ShopLineStatus, string> => ({
  open: '',
  bought: say('bought'),
  'not there': say('not there'),
  instead: say('other bought'),
})

/** The list as plain text, to be sent to whoever goes shopping: nothing of whom it is for, and prices only when asked for. */
export function listText({ list, lines, sums }: Pick<ListDetail, 'list' | 'lines' | 'sums'>, said: Said): string {
  const { by, unit, currency, withPrices } = said
  const parts = groupLines(lines, by).map(({ title, lines: some }) =>
    [
      title,
      ...some.map((line) => {
        const price = withPrices ? linePrice(line) : null
        const more = [
          ...noteWords(line),
          ...(price === null ? [] : [priceWords(price, currency)]),
          ...(line.status === 'open' ? [] : [statusWords()[line.status]]),
        ]
        const name = line.thread
          ? `${lineName(line)}: ${amountWords(line, unit)}`
          : `${lineName(line)}${line.putUps > 1 ? ` × ${line.putUps}` : ''}`
        return `- ${name}${more.length > 0 ? ` (${more.join(', ')})` : ''}`
      }),
    ].join('\n'),
  )
  const foot = withPrices ? [say('Expected: {expected}', { expected: expectedWords(sums, currency) })] : []
  return [list.title, ...parts, ...foot].join('\n\n')
}

/** The list as a file for a spreadsheet. */
export function listCsv({ lines }: Pick<ListDetail, 'lines'>, { unit, withPrices }: Omit<Said, 'by'>): string {
  const price = (minor: number | null) => (minor === null ? '' : formatPrice(minor, null))
  return toCsv([
    [
      ...[
        say('Shop'),
        say('Maker'),
        say('Line'),
        say('Code'),
        say('Name'),
        say('How many'),
        say('As'),
        say('Lot'),
        say('State'),
        say('Bought'),
        say('Lot bought'),
      ],
      ...(withPrices ? [say('Expected'), say('Paid')] : []),
      say('Note'),
    ],
    ...lines.map((line) => [
      ...[line.supplier ?? '', line.thread?.line.makerName ?? '', line.thread?.line.name ?? '', line.thread?.code ?? ''],
      ...[line.thread ? (line.thread.name ?? '') : (line.text ?? ''), line.putUps, line.thread ? amountWords(line, unit) : ''],
      ...[line.matchLot ?? (line.isOneLot ? say('one lot') : ''), statusWords()[line.status] || say('open')],
      ...[line.status === 'bought' || line.status === 'instead' ? (line.boughtPutUps ?? line.putUps) : '', line.lot ?? ''],
      ...(withPrices ? [price(linePrice(line)), price(line.paidMinor)] : []),
      line.note ?? '',
    ]),
  ])
}

/** The list on paper, with a box for the pencil. */
export function listSheet(
  { list, lines, sums }: Pick<ListDetail, 'list' | 'lines' | 'sums'>,
  day: string,
  { by, unit, currency, withPrices }: Said,
): ClassSheet {
  return {
    title: list.title,
    lines: [day, ...(withPrices ? [say('Expected: {expected}', { expected: expectedWords(sums, currency) })] : [])],
    blocks: groupLines(lines, by).flatMap(({ title, lines: some }) => [
      { kind: 'heading' as const, text: title },
      {
        kind: 'table' as const,
        columns: [
          { head: say('Bought'), share: 1.4 },
          { head: say('What'), share: 5 },
          { head: say('How many'), share: 4 },
          { head: say('Note'), share: 3 },
          ...(withPrices ? [{ head: say('Price'), share: 2, isRight: true }] : []),
        ],
        rows: some.map((line) => {
          const price = linePrice(line)
          return [
            line.status === 'open' ? '[   ]' : line.status === 'not there' ? say('not there') : say('bought'),
            line.thread ? threadTitle(line.thread) : (line.text ?? ''),
            amountWords(line, unit),
            noteWords({ ...line, thread: null }).join(', '),
            ...(withPrices ? [price === null ? '' : priceWords(price, currency)] : []),
          ]
        }),
      },
    ]),
    footer: `${list.title}, ${day}`,
    pageOf: (page, pages) => say('Page {page} of {pages}', { page, pages }),
  }
}
