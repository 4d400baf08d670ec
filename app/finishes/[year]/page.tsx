import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readYear, type YearOfWork } from '#lib/db/finish/read-finishes'
import type { Settings } from '#lib/settings/settings'
import { LinkButton } from '#ui/button'
import { ColumnPlot } from '#ui/column-plot'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PlotFigure } from '#ui/plot-figure'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed, threadLength } from '#words/amounts'
import { calendarDay } from '#words/date'
import { costKindWords, costsMore, uncounted, yearParts } from '#words/finish'
import { hoursWords } from '#words/hours'
import { monthWords } from '#words/plots'
import { priceWords } from '#words/price'
import { Gallery, longestOf } from '../../_finish/gallery'
import { ThreadCell } from '../../_things/thread-cell'
import { yearSchema } from '../schema'
import { monthCells } from './month-cells'
import s from './year.module.css'

type YearPageProps = { params: Promise<{ year: string }> }

export async function generateMetadata({ params }: YearPageProps): Promise<Metadata> {
  return { title: say('Finishes of {year}', { year: (await params).year }) }
}

export default async function YearPage({ params }: YearPageProps) {
  const asked = yearSchema.safeParse((await params).year)
  if (!asked.success) notFound()
  const { ownerIds, ownerName, settings } = await getViewer()
  const work = await readYear(ownerIds, asked.data)
  const { year, sum, finishes } = work
  const titleOf = (id: string | undefined | null) => finishes.find((finish) => finish.id === id)?.title
  const first = finishes.find(({ id }) => id === sum.firstId)
  const hasLogged = sum.months.some(({ logged }) => logged > 0)
  const cells = monthCells(work)
  return (
    <>
      <PageHead
        title={year}
        crumbs={[{ label: say('Finishes'), href: '/finishes' }, { label: year }]}
        byline={
          finishes.length > 0
            ? say('Finished from the goods of {ownerName}: {yearParts}.', { ownerName, yearParts: listed(yearParts(sum)) })
            : say('From the goods of {ownerName}.', { ownerName })
        }
        actions={
          <>
            <LinkButton href={`/finishes/${Number(year) - 1}`}>{Number(year) - 1}</LinkButton>
            {year < calendarDay(new Date()).slice(0, 4) && (
              <LinkButton href={`/finishes/${Number(year) + 1}`}>{Number(year) + 1}</LinkButton>
            )}
          </>
        }
      />
      <PrintLine>{sayParts('Finishes of {ownerName}, {year}', { ownerName, year })}</PrintLine>
      {finishes.length === 0 ? (
        <Empty
          title={say('Nothing was finished in {year}', { year })}
          actions={<LinkButton href="/finishes">{say('Other years')}</LinkButton>}
        >
          {say('What is finished in it stands here with its stitches and hours, the colours really used and what it cost.')}
        </Empty>
      ) : (
        <>
          <Facts
            items={[
              { label: say('Pieces'), value: numberText(sum.pieces) },
              { label: say('Stitches'), value: numberText(sum.stitches) },
              { label: say('Hours'), value: sum.hoursTenths > 0 && hoursWords(sum.hoursTenths) },
              {
                label: say('Thread used'),
                value: sum.threadTenths > 0 && threadLength(sum.threadTenths, 1, settings.threadUnit),
              },
              { label: say('Colours'), value: sum.colours.length > 0 && numberText(sum.colours.length) },
              {
                label: say('Cost'),
                value: finishes.some(costsMore)
                  ? say('{price} and more', { price: priceWords(sum.cost.totalMinor, settings.currency) })
                  : priceWords(sum.cost.totalMinor, settings.currency),
              },
              {
                label: say('Longest'),
                value: sum.longest && (
                  <>
                    <Link href={`/projects/${sum.longest.id}`} className="title">
                      {titleOf(sum.longest.id)}
                    </Link>
                    , {sum.longest.by === 'hours' ? hoursWords(sum.longest.hoursTenths) : counted(sum.longest.days, 'day')}
                  </>
                ),
              },
              {
                label: say('First'),
                value: first?.finishedOn && (
                  <>
                    <Link href={`/projects/${first.id}`} className="title">
                      {first.title}
                    </Link>
                    , {formatDate(first.finishedOn)}
                  </>
                ),
              },
            ].filter(({ value }) => value)}
          />
          <Unfold label={say('How these are added up')}>
            <YearSums work={work} settings={settings} />
          </Unfold>
          <Section title={say('The pieces')} note={counted(sum.pieces, 'piece')}>
            <Gallery
              label={say('Finished in {year}, in their order', { year })}
              longestStitches={longestOf(finishes)}
              pieces={finishes.map((finish) => ({ ...finish, more: costLine(finish, settings.currency) }))}
            />
          </Section>
        </>
      )}
      {(finishes.length > 0 || hasLogged) && (
        <PlotFigure
          id="months"
          title={say('Month by month')}
          drawing={
            hasLogged && (
              <ColumnPlot
                label={say('Stitches in the log by month of {year}; the numbers are in the table.', { year })}
                columns={sum.months.map(({ month }) => ({ key: month, label: monthWords(month).slice(0, 3) }))}
                series={[{ name: say('Stitches'), fill: 'solid', values: sum.months.map(({ logged }) => Math.max(0, logged)) }]}
                figure={(value) => numberText(value)}
              />
            )
          }
          table={{
            heads: cells.heads,
            rows: cells.rows.map(([month, ...figures]) => [
              monthWords(String(month)),
              ...figures.map((figure) => numberText(Number(figure))),
            ]),
          }}
          csvHref={`/finishes/${year}/months.csv`}
        >
          {hasLogged
            ? say('What was logged each month, on whatever; finished or not.')
            : say('Nothing is in the log of this year.')}
        </PlotFigure>
      )}
      {finishes.length > 0 && (
        <>
          <ColoursSection work={work} settings={settings} />
          <CostSection work={work} settings={settings} />
        </>
      )}
    </>
  )
}

const costLine = (finish: YearOfWork['finishes'][number], currency: string) =>
  finish.cost.unknown === finish.cost.lines.length
    ? say('no prices known')
    : say('cost {price}{hasCostsMore, select, yes { and more} other {}}', {
        price: priceWords(finish.cost.totalMinor, currency),
        hasCostsMore: Boolean(costsMore(finish)),
      })

type PartProps = { work: YearOfWork; settings: Settings }

const coloursShown = 30

function ColoursSection({ work: { sum, finishes }, settings }: PartProps) {
  const threads = new Map(finishes.flatMap(({ colours }) => colours.map(({ thread }) => [thread.id, thread] as const)))
  const rows = sum.colours.flatMap((colour) => {
    const thread = threads.get(colour.threadId)
    return thread ? [{ ...colour, thread }] : []
  })
  return (
    <Section
      title={say('Colours really used')}
      id="colours"
      note={
        rows.length > 0 &&
        say('{rows, plural, one {# colour} other {# colours}}, {threadLength} of thread', {
          rows: rows.length,
          threadLength: threadLength(sum.threadTenths, 1, settings.threadUnit),
        })
      }
    >
      {rows.length === 0 ? (
        <p className="quiet">{say('Nobody put down what thread these took.')}</p>
      ) : (
        <div className={s.column}>
          <Ledger
            caption={say('Colours really used, the most first')}
            isTight
            rows={rows.slice(0, coloursShown)}
            rowKey={({ threadId }) => threadId}
            columns={[
              {
                key: 'thread',
                head: say('Thread'),
                phone: 'lead',
                cell: ({ thread }) => <ThreadCell thread={thread} />,
              },
              { key: 'in', head: say('In'), phone: 'line', cell: ({ pieces }) => counted(pieces, 'piece') },
              {
                key: 'length',
                head: say('Used'),
                isNumeric: true,
                phone: 'side',
                cell: ({ thread, strandTenths }) => threadLength(strandTenths, thread.strands, settings.threadUnit),
              },
            ]}
          />
          {rows.length > coloursShown && (
            <p className="quiet">
              {say('{rows, plural, one {# colour} other {# colours}} more; each piece’s own page has all of its.', {
                rows: rows.length - coloursShown,
              })}
            </p>
          )}
        </div>
      )}
    </Section>
  )
}

/** Stitches, hours and thread of the year, piece by piece. */
function YearSums({ work: { sum, finishes }, settings }: PartProps) {
  const pieces = (figureOf: (finish: YearOfWork['finishes'][number]) => string | null) =>
    finishes.flatMap((finish) => {
      const figure = figureOf(finish)
      return figure === null ? [] : [{ label: <span className="title">{finish.title}</span>, figure }]
    })
  const thread = (tenths: number) => threadLength(tenths, 1, settings.threadUnit)
  return (
    <Sums>
      <Sum
        title={say('Stitches')}
        rows={[
          ...pieces(({ stitches }) => (stitches > 0 ? numberText(stitches) : null)),
          { label: say('Together'), figure: numberText(sum.stitches), kind: 'end' },
        ]}
      />
      {sum.hoursTenths > 0 && (
        <Sum
          title={say('Hours')}
          rows={[
            ...pieces(({ hoursTenths }) => (hoursTenths > 0 ? hoursWords(hoursTenths) : null)),
            { label: say('Together'), figure: hoursWords(sum.hoursTenths), kind: 'end' },
          ]}
        />
      )}
      {sum.threadTenths > 0 && (
        <Sum
          title={say('Thread used')}
          rows={[
            ...pieces(({ id }) => {
              const used = sum.threadByPiece.find((one) => one.id === id)?.threadTenths ?? 0
              return used > 0 ? thread(used) : null
            }),
            { label: say('Together'), figure: thread(sum.threadTenths), kind: 'end' },
          ]}
          note={say('Rounded where it is shown, added before.')}
        />
      )}
    </Sums>
  )
}

function CostSection({ work: { sum, finishes }, settings }: PartProps) {
  const { cost } = sum
  const unused = finishes.filter((finish) => uncounted(finish).length > 0).length
  const price = (minor: number) => priceWords(minor, settings.currency)
  return (
    <Section title={say('What it cost')} id="cost">
      <p>
        <b>{price(cost.totalMinor)}</b>
        {cost.unknown > 0 &&
          say(', without {unknown, plural, one {# thing} other {# things}} nobody has priced', { unknown: cost.unknown })}
        .
        {unused > 0 &&
          say(' Of {unused, plural, one {# piece} other {# pieces}} nobody put down all that was used, thread or cloth.', {
            unused,
          })}
      </p>
      <Unfold label={say('How this is reckoned')}>
        <Sums>
          <Sum
            title={say('By what it went on')}
            rows={[
              ...(['thread', 'cloth', 'chart', 'sent', 'other'] as const).map((kind) => ({
                label: costKindWords[kind],
                figure: price(cost[`${kind}Minor`]),
              })),
              { label: say('Together'), figure: price(cost.totalMinor), kind: 'end' as const },
            ]}
          />
          <Sum
            title={say('By piece')}
            rows={[
              ...finishes.map((finish) => ({
                label: (
                  <Link href={`/projects/${finish.id}#cost`} className="title">
                    {finish.title}
                  </Link>
                ),
                how:
                  finish.cost.unknown > 0
                    ? say('without {unknown, plural, one {# thing} other {# things}}', { unknown: finish.cost.unknown })
                    : '',
                figure: price(finish.cost.totalMinor),
              })),
              { label: say('Together'), figure: price(cost.totalMinor), kind: 'end' as const },
            ]}
          />
        </Sums>
      </Unfold>
    </Section>
  )
}
