import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { DrawerFront } from '#trade/drawer-front'
import { HoopWord } from '#trade/hoop'
import { TrayWord, trayStates } from '#trade/tray'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { TourSection } from '../_tour/tour-section'
import s from './guide.module.css'

export const generateMetadata = (): Metadata => ({ title: say('All of it on one page') })

type Errand = { title: string; steps: readonly ReactNode[] }

/** The main errands, a line a step, short enough that all of them stand on one sheet. */
const errands = (): readonly Errand[] => [
  {
    title: say('Where is it?'),
    steps: [
      say('Find: type a word of its title, a code, or a label.'),
      say('The place stands beside it. Press the label to see what else is there.'),
    ],
  },
  {
    title: say('What can I stitch tonight?'),
    steps: [
      say('Find: “stitchable now”. On Charts, the same switch; swaps may be allowed.'),
      say('Open a design: thread by thread, and the cloth to cut.'),
    ],
  },
  {
    title: say('Begin a piece'),
    steps: [
      say('On the design, “Start this”: its threads are promised to it.'),
      say('Pull: walk the list past the drawers, tick as you take.'),
      say('Bag it, and “Start stitching”.'),
    ],
  },
  {
    title: say('Log, and finish'),
    steps: [
      say('On the project, write stitches or hours of the day.'),
      say('“Finish it”: the day, a photo, what is left over.'),
      say('What is left over is on the put-back list.'),
    ],
  },
  {
    title: say('Put back'),
    steps: [
      say('On the bag’s own screen, “Unpack”.'),
      say('Tick what goes home. What is not there stays a question under Missing.'),
    ],
  },
  {
    title: say('Buy'),
    steps: [
      say('Buy: add designs, or projects under way.'),
      say('Whole put-ups, by maker, summed first. Take the list to the shop and tick.'),
    ],
  },
  {
    title: say('Cut cloth'),
    steps: [
      say('On the design, Cloth: which piece, and how large with its margins.'),
      say('“Plan the cut” for several at once; carry it out, and the offcuts are on record.'),
    ],
  },
  {
    title: say('Count'),
    steps: [
      say('Count: choose drawers. What should be there is not shown.'),
      say('Differences come after; look for swaps before putting anything right.'),
    ],
  },
  {
    title: say('Bring in'),
    steps: [
      say('A spreadsheet as CSV or XLSX, with any headings.'),
      say('See what would happen; bring it in; it can be undone.'),
    ],
  },
]

const cautions = sayings([
  'Dyes bleed, reds and dark blues most: test thread and cloth wet on white before washing.',
  'Count needles in and out, leave none in the cloth, keep scissors sheathed, and magnets away from medical implants.',
  'Light fades for good. Mothballs are a pesticide: only as their label says.',
  'Rest hands and eyes often. Anything old or dear: ask a conservator, and go by local practice.',
  'One bought chart for each stitcher; a file is for one person and is not lent.',
])

export default function GuidePage() {
  return (
    <>
      <PageHead
        title={say('All of it on one page')}
        byline={
          <span className={s.offPaper}>
            {sayParts(
              'Print it: it fits one sheet, A4 or Letter. Words that are new are explained under <link>words of the trade</link>.',
              { link: (words) => <Link href="/glossary">{words}</Link> },
            )}
          </span>
        }
      />
      <div className={s.guide}>
        {errands().map(({ title, steps }) => (
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
          <h2>{say('How a thread stands')}</h2>
          <ul className={s.marks}>
            {[...trayStates].reverse().map((state) => (
              <li key={state}>
                <TrayWord state={state} width={18} />
              </li>
            ))}
          </ul>
        </section>
        <section className={s.part}>
          <h2>{say('How far a piece is')}</h2>
          <ul className={s.marks}>
            {(['planned', 'kitted', 'stitching', 'resting', 'stitched', 'finished'] as const).map((status) => (
              <li key={status}>
                <HoopWord status={status} width={18} />
              </li>
            ))}
          </ul>
        </section>
        <section className={s.part}>
          <h2>{say('Where a thing is')}</h2>
          <div className={s.fronts}>
            <span className={s.front}>
              <DrawerFront label="T2.1" kind="drawer" size="small" />
            </span>
            <p>{say('Its home, by its label. A label with a broken line: it is out, and not in its home.')}</p>
          </div>
        </section>
        <section className={s.part}>
          <h2>{say('Keys')}</h2>
          <dl className={s.keys}>
            <dt>/</dt>
            <dd>{say('to Find, from any screen')}</dd>
            <dt>Ctrl+K, ⌘K</dt>
            <dd>{say('goes to anything or does it, from any screen')}</dd>
            <dt>{say('Tab, Enter')}</dt>
            <dd>{say('to the next thing, and into it')}</dd>
            <dt>{say('Space')}</dt>
            <dd>{say('ticks a line of a list')}</dd>
            <dt>{say('Esc')}</dt>
            <dd>{say('puts away what is open')}</dd>
          </dl>
        </section>
        <section className={s.part}>
          <h2>{say('With care')}</h2>
          <ul>
            {cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      </div>
      <div className={s.offPaper}>
        <TourSection title={say('Try it: three errands')} />
      </div>
    </>
  )
}
