import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import { finishedSize } from '#lib/cloth/finished-size'
import type { Kit } from '#lib/db/kit/read-kit'
import type { KitBags } from '#lib/db/kit-bag/queries'
import type { Block } from '#lib/printing/blocks'
import type { ClassSheet } from '#lib/printing/class-sheet'
import type { PackingSlips } from '#lib/printing/packing-slip'
import { linesOfKit } from '#lib/project/kit/master-list'
import { isInRange } from '#lib/project/kit/record'
import type { Settings } from '#lib/settings/settings'
import { counted, listed, plural } from './amounts'
import { lineName, perKitWords } from './kit'

const pageOf = (page: number, pages: number) => say('page {page} of {pages}', { page, pages })

type Units = Pick<Settings, 'lengthUnit' | 'threadUnit'>

/** A slip for each of these bags, by number. */
export function packingSlips(kit: KitBags, numbers: ReadonlySet<number>, units: Units, today: string): PackingSlips {
  const { project, master, lots } = kit
  const lotIn = (threadId: string, bag: number): string => {
    const cut = lots.find((lot) => lot.threadId === threadId && isInRange(lot, bag))
    return cut ? (cut.lot === null ? say('lot unmarked') : say('lot {lot}', { lot: cut.lot })) : ''
  }
  return {
    title: project.title,
    under: [
      project.owner.name,
      `${counted(master.copies, 'kit')}`,
      project.forWhom,
      say('printed {today}', { today: formatDate(today) }),
    ]
      .filter(Boolean)
      .join(' · '),
    slips: kit.bags
      .filter(({ number }) => numbers.has(number))
      .map(({ number, isSpare, status, lines }) => ({
        bag: say('Bag {number}', { number }),
        mark: isSpare && status !== 'sold' ? say('Spare: no chart until it is sold') : null,
        lines: lines.map((line) => ({
          name: lineName(line),
          amount: perKitWords(line, units),
          note: line.kind === 'thread' ? lotIn(line.threadId, number) : line.kind === 'item' ? (line.note ?? '') : '',
        })),
      })),
    footer: `${project.title} · ${project.owner.name}`,
    words: {
      line: say('What goes in'),
      amount: say('In the kit'),
      note: say('Lot, note'),
      signed: [say('Packed by'), say('Checked by'), say('Date')],
      caution: say('Tick what you see, not what ought to be there. Count needles in, and keep none loose on the table.'),
      pageOf,
    },
  }
}

const needleful = sayings({ in: 'about 18 in (45 cm)', cm: 'about 45 cm (18 in)' })

/** What lies in every kit for whoever stitches it. The chart, its grid and its key are not on it. */
export function classSheet(kit: KitBags, reckoned: Kit, units: Units): ClassSheet {
  const { project } = kit
  const lines = linesOfKit(kit.master, { isSpare: false, isSold: false })
  const { cloth, proposals } = reckoned
  const other = units.lengthUnit === 'in' ? 'cm' : 'in'
  const { widthStitches: width, heightStitches: height } = project
  const size =
    width !== null && height !== null && cloth?.count
      ? finishedSize({
          ...{ width, height, over: cloth.over, isTurned: false },
          ...{ ends: cloth.like?.ends ?? cloth.count, picks: cloth.like?.picks ?? cloth.count },
        })
      : null
  const needles = lines.filter((line) => line.kind === 'item' && line.itemKind === 'needle')
  const hasOwnNeedle = needles.length > 0
  const facts: string[] = [
    width !== null && height !== null ? say('{width} × {height} stitches.', { width, height }) : '',
    size
      ? say(
          'Stitched as here it comes to {size} ({size2}), over {overCase, select, yes {two threads} other {one thread}} of the cloth.',
          { size: formatClothSize(size, units.lengthUnit), size2: formatClothSize(size, other), overCase: cloth?.over === 2 },
        )
      : '',
  ].filter(Boolean)
  const isHandDyed = lines.some((line) => line.kind === 'thread' && line.dyeing !== 'solid')
  const blocks: Block[] = [
    ...(facts.length > 0 ? [{ kind: 'paragraph', text: facts.join(' ') } as const] : []),
    { kind: 'heading', text: say('In your kit') },
    {
      kind: 'table',
      columns: [
        { head: say('What'), share: 60 },
        { head: say('How much'), share: 22, isRight: true },
        { head: say('Note'), share: 34 },
      ],
      rows: lines.map((line) => [
        lineName(line),
        perKitWords(line, units),
        line.kind === 'item'
          ? (line.note ?? '')
          : line.kind === 'thread'
            ? say('in one {cutWord}', { cutWord: cutWord(line) })
            : '',
      ]),
    },
    { kind: 'heading', text: say('To begin') },
    ...[
      [
        say('Look your kit through against this list.'),
        say('Something missing or wrong? Tell the shop before the first stitch.'),
      ],
      [
        say('Neaten the edges of the cloth.'),
        say(
          'Overcast or zigzag them, so that they do not fray. Find the middle: fold in half both ways and mark it with a pin or a running thread.',
        ),
      ],
      [
        say('Count from the middle of the chart.'),
        say(
          'The chart shows where the middle is, which symbol is which thread, and how many strands. Work with what it says; this sheet leaves that to it.',
        ),
      ],
      [
        say('Thread the needle with {needleful}.', { needleful: needleful[units.lengthUnit] }),
        say('A longer needleful wears thin. {rest}', {
          rest:
            proposals.needle && !hasOwnNeedle
              ? say('A blunt needle of size {needleSize} suits this cloth.', { needleSize: needleSize(proposals.needle) })
              : say('A blunt needle parts the threads of the cloth.'),
        }),
      ],
      [say('Lay every cross the same way.'), say('All upper legs lean to one side, over the whole of the work.')],
    ].map(([text = '', note = ''], at): Block => ({ kind: 'step', number: String(at + 1), text, notes: [note] })),
    { kind: 'heading', text: say('Take care') },
    {
      kind: 'paragraph',
      text: say(
        '{hasOwnNeedle}Needles and scissors are sharp: keep them from children and pets, count them before and after, and take the needle out of the cloth when you put the work by, for it can rust and mark.',
        {
          hasOwnNeedle: hasOwnNeedle
            ? say('There {needleCount, plural, one {is one needle} other {are # needles}} in this kit. ', {
                needleCount: needleCount(needles),
              })
            : '',
        },
      ),
    },
    {
      kind: 'paragraph',
      text: say(
        'Dyes can bleed{isHandDyed, select, yes {, hand-dyed thread above all} other {}}. Do not wash the piece as a matter of course; try each thread and the cloth wet on white first.',
        { isHandDyed },
      ),
    },
    { kind: 'paragraph', text: say('Rest hands and eyes often: short breaks beat a long one. Stop where it hurts.') },
    {
      kind: 'paragraph',
      text: lines.some((line) => line.kind === 'chart')
        ? say('The chart was bought for you: one chart to each stitcher. A working copy stays with it; please pass no copies on.')
        : say('Each stitcher has a bought chart of their own; please pass no copies on.'),
    },
  ]
  return {
    title: project.title,
    lines: [
      project.designers.length > 0 ? say('by {designers}', { designers: listed(project.designers) }) : '',
      [say('A kit of {name}', { name: project.owner.name }), project.forWhom, project.dueOn && formatDate(project.dueOn)]
        .filter(Boolean)
        .join(' · '),
    ],
    blocks,
    footer: [project.title, project.owner.name].join(' · '),
    pageOf,
  }
}

const needleSize = ({ coarsest, finest }: { coarsest: number; finest: number }): string =>
  coarsest === finest ? String(coarsest) : say('{coarsest} to {finest}', { coarsest, finest })

type ThreadOfList = Extract<KitBags['master']['lines'][number], { kind: 'thread' }>

const cutWord = ({ perKit, putUpStrandTenths, putUpWord }: ThreadOfList): string =>
  perKit.strandTenths > putUpStrandTenths ? say('length beside whole {plural}', { plural: plural(putUpWord) }) : say('length')

const needleCount = (lines: KitBags['master']['lines']): number =>
  lines.reduce((sum, line) => (line.kind === 'item' ? sum + line.perKit.count : sum), 0)
