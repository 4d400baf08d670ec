// Errands of every day, walked on a phone with one thumb and at a desk without a mouse, and how much each may take.
import type { Locator, Page } from 'playwright-core'
import { CountingHand, type Effort } from './step-counter'

export type Errand = {
  name: string
  /** The most steps it may take, on the phone and at the desk. */
  most: { phone: number; desk: number }
  /** What it took before it was brought down, counted the same way. */
  before: { phone: Effort; desk: Effort }
  phone: (hand: CountingHand) => Promise<void>
  desk: (hand: CountingHand) => Promise<void>
}

/** Where every errand begins: a screen that answers none of them. */
export const startingPage = '/threads'

const main = ({ page }: CountingHand): Locator => page.getByRole('main')
const visibleNav = ({ page }: CountingHand, name: string): Locator =>
  page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name, exact: true }).filter({ visible: true })
const palette = ({ page }: CountingHand): Locator => page.getByRole('dialog', { name: 'Go to or do' })
const line = (hand: CountingHand, name: string | RegExp): Locator => palette(hand).getByRole('option', { name })
const title = ({ page }: CountingHand, name: string | RegExp): Locator => page.getByRole('heading', { level: 1, name })

async function openByThumb(hand: CountingHand) {
  await hand.tap(hand.page.getByRole('button', { name: 'Go to or do' }))
  await palette(hand).waitFor()
}

async function openByKeys(hand: CountingHand) {
  await hand.press('Control+k')
  await palette(hand).getByRole('combobox').and(hand.page.locator(':focus')).waitFor()
}

const effort = (steps: number, screens: number, answers: number): Effort => ({ steps, screens, answers })

/** Something is looked for, and the line that finds it says where it is. */
const whereIs = (name: string, words: string, seen: RegExp, before: Errand['before']): Errand => ({
  name,
  most: { phone: 2, desk: 2 },
  before,
  phone: async (hand) => {
    await openByThumb(hand)
    await hand.fill(palette(hand).getByRole('combobox'), words)
    await hand.see(line(hand, seen))
  },
  desk: async (hand) => {
    await openByKeys(hand)
    await hand.type(words)
    await hand.see(line(hand, seen))
  },
})

/** Something is looked for and opened, for what stands on its own page. */
const openAndSee = (
  name: string,
  words: string,
  found: RegExp,
  seen: (hand: CountingHand) => Locator,
  before: Errand['before'],
): Errand => ({
  name,
  most: { phone: 3, desk: 3 },
  before,
  phone: async (hand) => {
    await openByThumb(hand)
    await hand.fill(palette(hand).getByRole('combobox'), words)
    await hand.tap(line(hand, found))
    await hand.see(seen(hand))
  },
  desk: async (hand) => {
    await openByKeys(hand)
    await hand.type(words)
    await line(hand, found).and(hand.page.locator('[aria-selected=true]')).waitFor()
    await hand.press('Enter')
    await hand.see(seen(hand))
  },
})

/** A way of two taps on the phone; at the desk a verb. */
const goAndSee = (asked: {
  name: string
  thumb: (hand: CountingHand) => Promise<void>
  thumbSteps: number
  verb: string
  found: RegExp
  seen: (hand: CountingHand) => Locator
  before: Errand['before']
}): Errand => ({
  name: asked.name,
  most: { phone: asked.thumbSteps, desk: 3 },
  before: asked.before,
  phone: async (hand) => {
    await asked.thumb(hand)
    await hand.see(asked.seen(hand))
  },
  desk: async (hand) => {
    await openByKeys(hand)
    await hand.type(asked.verb)
    await line(hand, asked.found).and(hand.page.locator('[aria-selected=true]')).waitFor()
    await hand.press('Enter')
    await hand.see(asked.seen(hand))
  },
})

const bag = (hand: CountingHand) =>
  main(hand)
    .getByRole('table', { name: 'In K-07, living elsewhere' })
    .getByRole('button', { name: /^Put back/ })

/** The used-by list first, then questions by their number. What changes the record comes last, and each way of it has a work of its own. */
export const errands: readonly Errand[] = [
  whereIs('Which box is the winter chart in?', 'rook hill', /Rook Hill in Snow.*R2-3/, {
    phone: effort(2, 0, 2),
    desk: effort(2, 0, 2),
  }),
  {
    name: 'What can be stitched from stash right now?',
    most: { phone: 1, desk: 1 },
    before: { phone: effort(2, 0.9, 2), desk: effort(11, 0.5, 2) },
    phone: async (hand) => {
      await openByThumb(hand)
      await hand.see(palette(hand).getByRole('group', { name: 'Stitchable now', exact: true }).getByRole('option'))
    },
    desk: async (hand) => {
      await openByKeys(hand)
      await hand.see(palette(hand).getByRole('group', { name: 'Stitchable now', exact: true }).getByRole('option'))
    },
  },
  goAndSee({
    name: 'What next, by the count of cloth on hand?',
    thumb: async (hand) => {
      await openByThumb(hand)
      await hand.tap(line(hand, /^28 evenweave or linen/))
    },
    thumbSteps: 2,
    verb: '28',
    found: /^28 evenweave or linen/,
    seen: (hand) => main(hand).getByRole('table').getByRole('link'),
    before: { phone: effort(5, 0, 4), desk: effort(38, 0, 4) },
  }),
  whereIs('1 Which drawer is Larkholm 0311 in?', 'Larkholm 0311', /0311.*T2\.2/, {
    phone: effort(2, 0, 2),
    desk: effort(2, 0, 2),
  }),
  whereIs('9 Which bag is Nine Wrens in?', 'nine wrens', /Nine Wrens.*Project.*K-07/, {
    phone: effort(2, 0, 2),
    desk: effort(2, 0, 2),
  }),
  openAndSee(
    '14 What is missing for Kettle at Wend Cross?',
    'kettle at wend',
    /^Kettle at Wend Cross/,
    (hand) => main(hand).getByText(/ to buy: .*0742/),
    { phone: effort(3, 1.1, 3), desk: effort(9, 0, 3) },
  ),
  goAndSee({
    name: '16 Which want only one or two skeins?',
    thumb: async (hand) => {
      await hand.tap(visibleNav(hand, 'Find'))
      await hand.tap(main(hand).getByRole('link', { name: /within two put-ups$/ }))
    },
    thumbSteps: 2,
    verb: 'one or two',
    found: /^What wants one or two put-ups/,
    seen: (hand) =>
      main(hand)
        .getByRole('table')
        .getByText(/^Short by/),
    before: { phone: effort(2, 2.8, 2), desk: effort(13, 1.6, 2) },
  }),
  openAndSee('39 I am unpacking this bag: what goes where?', 'K-07', /^K-07/, bag, {
    phone: effort(3, 0, 3),
    desk: effort(10, 0, 3),
  }),
  goAndSee({
    name: '40 What is still out, and where?',
    thumb: async (hand) => {
      await hand.tap(visibleNav(hand, 'Places'))
      await hand.tap(main(hand).getByRole('link', { name: /things are out$/ }))
    },
    thumbSteps: 2,
    verb: 'what is out',
    found: /^What is out, and where/,
    seen: (hand) => main(hand).getByRole('table', { name: 'What is out' }).getByRole('row').nth(1),
    before: { phone: effort(2, 0, 1), desk: effort(18, 0, 1) },
  }),
  openAndSee(
    '68 A count of drawer T2.1 is begun',
    'count T2.1',
    /^Count T2\.1/,
    (hand) => main(hand).getByRole('button', { name: /Begin/ }),
    {
      phone: effort(4, 0, 4),
      desk: effort(19, 0, 4),
    },
  ),
  goAndSee({
    name: '79 Who has which of my charts?',
    thumb: async (hand) => {
      await hand.tap(visibleNav(hand, 'Places'))
      await hand.tap(main(hand).getByRole('link', { name: 'Out and back' }))
    },
    thumbSteps: 2,
    verb: 'who has',
    found: /^Who has what/,
    seen: (hand) => title(hand, 'Out and back'),
    before: { phone: effort(2, 0, 2), desk: effort(20, 0, 2) },
  }),
  {
    name: 'A finished piece is logged',
    most: { phone: 3, desk: 4 },
    before: { phone: effort(4, 7.2, 5), desk: effort(103, 0, 6) },
    phone: async (hand) => {
      await hand.tap(visibleNav(hand, 'Projects'))
      await hand.tap(main(hand).getByRole('link', { name: 'Finish The Tallow House' }))
      await hand.tap(main(hand).getByRole('button', { name: 'Write it down as it stands' }))
      await hand.page.waitForURL((url) => !url.pathname.endsWith('/finish'))
    },
    desk: async (hand) => {
      await openByKeys(hand)
      await hand.type('finish nine')
      await line(hand, /^Finish Nine Wrens/)
        .and(hand.page.locator('[aria-selected=true]'))
        .waitFor()
      await hand.press('Enter')
      await main(hand).getByRole('button', { name: 'Write it down as it stands' }).and(hand.page.locator(':focus')).waitFor()
      await hand.press('Enter')
      await hand.page.waitForURL((url) => !url.pathname.endsWith('/finish'))
    },
  },
]

/** Walk an errand from the starting page, and say what it took. */
export async function walkErrand(page: Page, walk: Errand['phone']): Promise<Effort> {
  await page.goto(startingPage)
  await page.getByRole('heading', { level: 1, name: 'Threads' }).waitFor()
  // Keys are heard from then on.
  await page.locator('button[aria-keyshortcuts]').waitFor()
  const hand = new CountingHand(page)
  hand.begin()
  await walk(hand)
  return hand.effort()
}
