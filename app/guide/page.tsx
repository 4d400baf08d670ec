import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import { DrawerFront } from '#trade/drawer-front'
import { HoopWord } from '#trade/hoop'
import { TrayWord, trayStates } from '#trade/tray'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { TourSection } from '../_tour/tour-section'
import s from './guide.module.css'

export const metadata: Metadata = { title: 'All of it on one page' }

type Errand = { title: string; steps: readonly ReactNode[] }

/** The main errands, a line a step, short enough that all of them stand on one sheet. */
const errands: readonly Errand[] = [
  {
    title: 'Where is it?',
    steps: [
      'Find: type a word of its title, a code, or a label.',
      'The place stands beside it. Press the label to see what else is there.',
    ],
  },
  {
    title: 'What can I stitch tonight?',
    steps: [
      'Find: “stitchable now”. On Charts, the same switch; swaps may be allowed.',
      'Open a design: thread by thread, and the cloth to cut.',
    ],
  },
  {
    title: 'Begin a piece',
    steps: [
      'On the design, “Start this”: its threads are promised to it.',
      'Pull: walk the list past the drawers, tick as you take.',
      'Bag it, and “Start stitching”.',
    ],
  },
  {
    title: 'Log, and finish',
    steps: [
      'On the project, write stitches or hours of the day.',
      '“Finish it”: the day, a photo, what is left over.',
      'What is left over is on the put-back list.',
    ],
  },
  {
    title: 'Put back',
    steps: ['On the bag’s own screen, “Unpack”.', 'Tick what goes home. What is not there stays a question under Missing.'],
  },
  {
    title: 'Buy',
    steps: [
      'Buy: add designs, or projects under way.',
      'Whole put-ups, by maker, summed first. Take the list to the shop and tick.',
    ],
  },
  {
    title: 'Cut cloth',
    steps: [
      'On the design, Cloth: which piece, and how large with its margins.',
      '“Plan the cut” for several at once; carry it out, and the offcuts are on record.',
    ],
  },
  {
    title: 'Count',
    steps: [
      'Count: choose drawers. What should be there is not shown.',
      'Differences come after; look for swaps before putting anything right.',
    ],
  },
  {
    title: 'Bring in',
    steps: ['A spreadsheet as CSV or XLSX, with any headings.', 'See what would happen; bring it in; it can be undone.'],
  },
]

const cautions = [
  'Dyes bleed, reds and dark blues most: test thread and cloth wet on white before washing.',
  'Count needles in and out, leave none in the cloth, keep scissors sheathed, and magnets away from medical implants.',
  'Light fades for good. Mothballs are a pesticide: only as their label says.',
  'Rest hands and eyes often. Anything old or dear: ask a conservator, and go by local practice.',
  'One bought chart for each stitcher; a file is for one person and is not lent.',
] as const

export default function GuidePage() {
  return (
    <>
      <PageHead
        title="All of it on one page"
        byline={
          <span className={s.offPaper}>
            Print it: it fits one sheet, A4 or Letter. Words that are new are explained under{' '}
            <Link href="/glossary">words of the trade</Link>.
          </span>
        }
      />
      <div className={s.guide}>
        {errands.map(({ title, steps }) => (
          <section key={title} className={s.part}>
            <h2>{title}</h2>
            <ol>
              {steps.map((step, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a step is known by its place
                <li key={at}>{step}</li>
              ))}
            </ol>
          </section>
        ))}
        <section className={s.part}>
          <h2>How a thread stands</h2>
          <ul className={s.marks}>
            {[...trayStates].reverse().map((state) => (
              <li key={state}>
                <TrayWord state={state} width={18} />
              </li>
            ))}
          </ul>
        </section>
        <section className={s.part}>
          <h2>How far a piece is</h2>
          <ul className={s.marks}>
            {(['planned', 'kitted', 'stitching', 'resting', 'stitched', 'finished'] as const).map((status) => (
              <li key={status}>
                <HoopWord status={status} width={18} />
              </li>
            ))}
          </ul>
        </section>
        <section className={s.part}>
          <h2>Where a thing is</h2>
          <div className={s.fronts}>
            <span className={s.front}>
              <DrawerFront label="T2.1" kind="drawer" size="small" />
            </span>
            <p>Its home, by its label. A label with a broken line: it is out, and not in its home.</p>
          </div>
        </section>
        <section className={s.part}>
          <h2>Keys</h2>
          <dl className={s.keys}>
            <dt>/</dt>
            <dd>to Find, from any screen</dd>
            <dt>Tab, Enter</dt>
            <dd>to the next thing, and into it</dd>
            <dt>Space</dt>
            <dd>ticks a line of a list</dd>
            <dt>Esc</dt>
            <dd>puts away what is open</dd>
          </dl>
        </section>
        <section className={s.part}>
          <h2>With care</h2>
          <ul>
            {cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      </div>
      <div className={s.offPaper}>
        <TourSection title="Try it: three errands" />
      </div>
    </>
  )
}
