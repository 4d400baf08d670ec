import type { Random } from '#seed/random'
import { fonts, type Page } from '../page-drawing'
import type { TruthFacts } from '../truth'
import { noFacts, perInchCount, saidCloth } from '../writing'
import { widerDesigners, widerTitles } from './wider-facts'

/** What a head says, and how it is set: by the size and place of the type, and not by words that explain it. */
export type SetHead = { facts: TruthFacts; title: string; designer: string; put: (page: Page) => void }

const makers = [
  ...widerDesigners,
  'Ottoline Burrage',
  'Corvin Ashdale',
  'Brackwater Samplers',
  'Quill and Kettle',
  'The Oxmarsh Needle Room',
]
const titles = [...widerTitles, 'First Snow', 'Cherry Row', 'Walnut and Willow', 'Mill Race', 'Ember']
const [left, wide] = [54, 480]

type Setting = (page: Page, said: { title: string; designer: string; facts: string[]; year: number }) => void
const small = { font: fonts.helvetica, size: 9.5 }
const putFacts = (page: Page, facts: readonly string[]): void => {
  page.y += 4
  for (const fact of facts) page.paragraph(fact, left, wide, small)
  page.y += 10
}
const large = (page: Page, text: string, size = 22): void => page.paragraph(text, left, wide, { font: fonts.timesBold, size })
const plain = (page: Page, text: string, size = 10): void => page.paragraph(text, left, wide, { font: fonts.helvetica, size })

/** Each sets title, designer and facts otherwise; the title is the largest but where words tell. */
export const headSettings: [string, Setting][] = [
  [
    'designer above in small type',
    (page, { title, designer, facts }) => {
      plain(page, designer)
      large(page, title)
      putFacts(page, facts)
    },
  ],
  [
    'designer above in capitals, a line of what they do',
    (page, { title, designer, facts }) => {
      page.paragraph(designer.toUpperCase(), left, wide, { font: fonts.notoBold, size: 12 })
      plain(page, 'Counted thread designs', 8)
      page.y += 14
      large(page, title, 26)
      putFacts(page, facts)
    },
  ],
  [
    'designer at the right on the same line',
    (page, { title, designer, facts }) => {
      page.put(title, left, page.y, { font: fonts.timesBold, size: 20 })
      page.put(designer, left, page.y + 8, { font: fonts.helvetica, size: 10, width: wide, align: 'right' })
      page.y += 30
      putFacts(page, facts)
    },
  ],
  [
    'by on a line of its own',
    (page, { title, designer, facts }) => {
      large(page, title)
      plain(page, 'designed by', 8)
      plain(page, designer, 12)
      putFacts(page, facts)
    },
  ],
  [
    'title over two lines',
    (page, { title, designer, facts }) => {
      const words = title.split(' ')
      const cut = Math.max(1, words.length >> 1)
      large(page, words.slice(0, cut).join(' '), 30)
      if (words.length > 1) large(page, words.slice(cut).join(' '), 30)
      plain(page, designer, 12)
      putFacts(page, facts)
    },
  ],
  [
    'title with the designer in brackets',
    (page, { title, designer, facts }) => {
      large(page, `${title} (${designer})`, 16)
      putFacts(page, facts)
    },
  ],
  [
    'year and designer at the foot',
    (page, { title, designer, facts, year }) => {
      large(page, title)
      putFacts(page, facts)
      page.put(`© ${year} ${designer}`, left, page.bottom - 8, { font: fonts.helvetica, size: 7 })
    },
  ],
  [
    'labels in a column of their own',
    (page, { title, designer, facts }) => {
      for (const [label, said] of [
        ['Title', title],
        ['Designer', designer],
        ['Size', facts[0] as string],
        ['Fabric', facts[1] as string],
      ] as const) {
        page.put(label, left, page.y, { font: fonts.helveticaBold, size: 10 })
        page.put(said, left + 90, page.y, { font: fonts.helvetica, size: 10 })
        page.y += 15
      }
      page.y += 8
    },
  ],
  [
    'a line of description between',
    (page, { title, designer, facts }) => {
      large(page, title.toUpperCase(), 20)
      page.paragraph('A small sampler in counted stitches', left, wide, { font: fonts.notoItalic, size: 10 })
      plain(page, designer, 11)
      putFacts(page, facts)
    },
  ],
  [
    'the name of a series above',
    (page, { title, designer, facts }) => {
      plain(page, 'Lanes and Lofts, number 4', 9)
      large(page, title, 24)
      plain(page, `by ${designer}`, 11)
      putFacts(page, facts)
    },
  ],
  [
    'chart by above',
    (page, { title, designer, facts }) => {
      plain(page, `A chart by ${designer}`, 10)
      large(page, title, 24)
      putFacts(page, facts)
    },
  ],
  [
    'title in the middle of the page, designer below the facts',
    (page, { title, designer, facts }) => {
      page.put(title, left, page.y, { font: fonts.notoBold, size: 21, width: wide, align: 'center' })
      page.y += 30
      for (const fact of facts) {
        page.put(fact, left, page.y, { font: fonts.noto, size: 9.5, width: wide, align: 'center' })
        page.y += 14
      }
      page.put(designer, left, page.y, { font: fonts.notoItalic, size: 11, width: wide, align: 'center' })
      page.y += 26
    },
  ],
  [
    'designer and title with a colon',
    (page, { title, designer, facts }) => {
      page.paragraph(`${designer}: ${title}`, left, wide, { font: fonts.notoBold, size: 14 })
      putFacts(page, facts)
    },
  ],
  [
    'designer at the left, title large at the right',
    (page, { title, designer, facts }) => {
      page.put(designer, left, page.y + 8, { font: fonts.helvetica, size: 9 })
      page.put(title, left, page.y, { font: fonts.timesBold, size: 20, width: wide, align: 'right' })
      page.y += 32
      putFacts(page, facts)
    },
  ],
  [
    'designer small above, all of one family and weight',
    (page, { title, designer, facts }) => {
      page.paragraph(designer, left, wide, { font: fonts.noto, size: 10 })
      page.paragraph(title, left, wide, { font: fonts.noto, size: 16 })
      putFacts(page, facts)
    },
  ],
  [
    'a sentence of rights at the foot',
    (page, { title, designer, facts, year }) => {
      large(page, title, 24)
      putFacts(page, facts)
      page.put(`Chart copyright ${designer}, ${year}. Not to be sold on.`, left, page.bottom - 8, { font: fonts.times, size: 8 })
    },
  ],
  [
    'a design of somebody, below',
    (page, { title, designer, facts }) => {
      large(page, title, 18)
      plain(page, `A ${designer} design`, 9)
      putFacts(page, facts)
    },
  ],
  [
    'designed for one by another',
    (page, { title, designer, facts }) => {
      large(page, title, 18)
      plain(page, `Designed for the Marl Street shop by ${designer}`, 9)
      putFacts(page, facts)
    },
  ],
  [
    'a line of what the designer does beside the name',
    (page, { title, designer, facts }) => {
      plain(page, `${designer} | charts for counted thread`, 9)
      large(page, title, 20)
      putFacts(page, facts)
    },
  ],
  [
    'in the middle of a row of stars',
    (page, { title, designer, facts }) => {
      page.put(`* * *  ${title}  * * *`, left, page.y, { font: fonts.timesBold, size: 17, width: wide, align: 'center' })
      page.y += 24
      page.put(designer, left, page.y, { font: fonts.times, size: 12, width: wide, align: 'center' })
      page.y += 18
      putFacts(page, facts)
    },
  ],
  [
    'title in small type below a large word',
    (page, { title, designer, facts }) => {
      large(page, 'CHART', 30)
      page.paragraph(title, left, wide, { font: fonts.notoBold, size: 14 })
      plain(page, designer, 9)
      putFacts(page, facts)
    },
  ],
  [
    'facts first',
    (page, { title, designer, facts }) => {
      putFacts(page, facts)
      large(page, title, 22)
      plain(page, `by ${designer}`, 10)
    },
  ],
  [
    'all one size, the title bold',
    (page, { title, designer, facts }) => {
      page.paragraph(title, left, wide, { font: fonts.helveticaBold, size: 11 })
      page.paragraph(designer, left, wide, { font: fonts.helvetica, size: 11 })
      putFacts(page, facts)
    },
  ],
  [
    'what the sheet is, the title below it',
    (page, { title, designer, facts }) => {
      plain(page, 'Cross stitch chart', 9)
      large(page, title, 22)
      plain(page, `© ${designer}`, 9)
      putFacts(page, facts)
    },
  ],
]

/** A head, set as number `at` of `headSettings` is. */
export function setHead(random: Random, at: number, title = random.pick(titles)): SetHead {
  const designer = random.pick(makers)
  const [width, height, linen] = [random.int(40, 260), random.int(40, 320), random.pick([28, 32, 36])]
  const year = random.int(2009, 2025)
  const [, setting] = headSettings[at % headSettings.length] as (typeof headSettings)[number]
  const facts = [`${width} x ${height} stitches`, `${linen} count linen over two threads`]
  return {
    title,
    designer,
    facts: {
      ...noFacts,
      title,
      designer,
      widthStitches: width,
      heightStitches: height,
      count: perInchCount(linen),
      over: 2,
      weave: 'single',
      cloth: saidCloth('linen', `${linen} count linen over two threads`),
    },
    put: (page) => setting(page, { title, designer, facts, year }),
  }
}
