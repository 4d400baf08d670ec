import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { stitchSize } from '#lib/chart/design-size'
import { type ChartDesign, type ChartDetail, findChart } from '#lib/db/chart/queries'
import { readCovers } from '#lib/db/chart/read-covers'
import { listFiles } from '#lib/db/file/queries'
import { askLending, type LendingAnswer } from '#lib/db/loan/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatPrice } from '#lib/quantity/money'
import { LoanStandingWord } from '#trade/loan-standing'
import { OutlineToScale } from '#trade/outline-to-scale'
import { PlaceLabel } from '#trade/place-label'
import { ButtonRow, LinkButton } from '#ui/button'
import { type Fact, Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { calendarDay } from '#words/date'
import { reasonSaid } from '#words/journal'
import { clashWords, fileWords, loanKindWords, standingWords } from '#words/loan'
import { isChartOut, MoveChartForm, RemoveChartDialog, RestoreChartForm, ReturnChartForm } from '../../_charts/chart-forms'
import { dayOf, describeChartMovement, kindWords, partsSentence, sizeWords } from '../../_charts/words'
import { ChartCover } from '../../_files/chart-cover'
import { FilesSection } from '../../_files/files-section'
import { WorthSection } from '../../_worth/worth-section'
import s from './chart.module.css'

type PageProps = { params: Promise<{ chartId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const chart = await findChart((await params).chartId)
  return { title: chart?.title ?? say('Chart') }
}

export default async function ChartPage({ params }: PageProps) {
  const chart = await findChart((await params).chartId)
  if (!chart) notFound()
  const today = calendarDay(new Date())
  const [{ settings, ownerIds }, places, lending, covers, files] = await Promise.all([
    getViewer(),
    listPlaceOptions(),
    askLending({ chartId: chart.id, count: 1, fromOn: today, untilOn: null }, today),
    readCovers([chart.id]),
    listFiles({ noun: 'chart', id: chart.id }),
  ])
  const cover = covers.get(chart.id)
  const parts = partsSentence(chart)
  return (
    <>
      <PageHead
        title={chart.title}
        isWork
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: chart.title }]}
        note={midSentence(kindWords[chart.kind])}
        byline={<Designers chart={chart} />}
        actions={
          !chart.isGone && (
            <>
              <LinkButton href={`/labels?one=chart.${chart.id}`}>{say('Label')}</LinkButton>
              <LinkButton href={`/charts/${chart.id}/edit`}>{say('Change it')}</LinkButton>
            </>
          )
        }
      >
        {parts && !chart.isGone && <p>{parts}</p>}
      </PageHead>
      <PrintLine>{sayParts('Chart of {name}', { name: chart.owner.name })}</PrintLine>
      {chart.mergedInto && (
        <Notice
          kind="done"
          title={say('It was entered twice, and is part of {keptName} now.', { keptName: chart.mergedInto.keptName })}
          actions={
            <>
              <LinkButton href={`/charts/${chart.mergedInto.keptId}`}>
                {sayParts('Look at {keptName}', { keptName: chart.mergedInto.keptName })}
              </LinkButton>
              <LinkButton href={`/charts/doubles/${chart.mergedInto.mergingId}`}>{say('How it was merged')}</LinkButton>
            </>
          }
        />
      )}
      {chart.isGone && !chart.mergedInto && (
        <Notice kind="done" title={say('It is taken out of the larder')} actions={<RestoreChartForm chart={chart} />}>
          {say('Its designs are shown nowhere any more; its history stays.')}
        </Notice>
      )}
      <Facts items={factsOf(chart, settings.currency)} />
      <ChartCover chart={chart} cover={cover} />
      <Section
        title={chart.designs.length === 1 ? say('Its design') : say('Its {designs} designs', { designs: chart.designs.length })}
        id="designs"
        actions={!chart.isGone && <LinkButton href={`/charts/${chart.id}/designs/new`}>{say('Add a design')}</LinkButton>}
      >
        <Designs chart={chart} unit={settings.lengthUnit} isOut={isWithSomebody(chart)} />
      </Section>
      {!chart.isGone && (
        <Section title={say('Lending and moving')} id="move">
          <div className={s.forms}>
            {lending && <Lending answer={lending} />}
            {(lending?.loans.length ?? 0) === 0 && <ReturnChartForm chart={chart} />}
            <Unfold label={chart.kind === 'file' ? say('Move it') : say('Take it out or give it another home')}>
              <MoveChartForm chart={chart} placeLabels={places.map(({ label }) => label)} />
            </Unfold>
            <p className={s.copyright}>
              {say(
                'One bought chart is for one stitcher: a kit or a class needs a copy each, and files are not lent. What the law allows beyond that varies from country to country.',
              )}
            </p>
            <ButtonRow>
              <LinkButton href={`/charts/doubles/merge?gone=${chart.id}`}>{say('It is here twice')}</LinkButton>
              <RemoveChartDialog chart={chart} />
            </ButtonRow>
          </div>
        </Section>
      )}
      <FilesSection
        thing={{ noun: 'chart', id: chart.id }}
        files={files}
        ownerIds={ownerIds}
        roles={['chart', 'receipt']}
        isGone={chart.isGone}
      />
      {!chart.isGone && <WorthSection noun="chart" id={chart.id} />}
      <Section title={say('History')} id="history">
        <Ledger
          caption={say('What happened to this chart, newest first')}
          rows={chart.movements}
          rowKey={({ id }) => id}
          isTight
          columns={[
            {
              key: 'when',
              head: say('When'),
              cell: ({ at }) => <span className="nb">{dayOf(at)}</span>,
              phone: 'side',
              width: '10rem',
            },
            { key: 'what', head: say('What'), cell: describeChartMovement, phone: 'lead', width: '26rem' },
            {
              key: 'why',
              head: say('Why'),
              cell: ({ reason, importFile, who }) =>
                [
                  reasonSaid(reason, settings.lengthUnit),
                  importFile && say('brought in from {importFile}', { importFile }),
                  who && say('by {who}', { who }),
                ]
                  .filter(Boolean)
                  .join(', '),
            },
          ]}
        />
      </Section>
    </>
  )
}

function Designers({ chart }: { chart: ChartDetail }) {
  if (chart.designers.length === 0) return null
  return chart.designers.map(({ id, name }, index) => (
    <span key={id}>
      {index > 0 && ', '}
      <Link href={`/charts?designer=${id}`}>{name}</Link>
    </span>
  ))
}

function factsOf(chart: ChartDetail, currency: string): Fact[] {
  const { current, home, outSince, copies, priceMinor } = chart
  const bought = [
    chart.boughtOn && formatDate(chart.boughtOn),
    priceMinor !== null && `${currency}${formatPrice(priceMinor, null)}`,
  ]
  return [
    {
      label: say('Place'),
      value: current ? (
        <PlaceLabel
          label={current.label}
          href={`/places/${current.id}`}
          livesIn={isChartOut(chart) ? home?.label : undefined}
          note={
            outSince &&
            say('{hasIsWithSomebody, select, yes {chart out} other {out}} since {outSince}', {
              hasIsWithSomebody: Boolean(isWithSomebody(chart)),
              outSince: dayOf(outSince),
            })
          }
        />
      ) : (
        say('no place yet')
      ),
    },
    { label: say('Copies'), value: counted(copies, 'copy') },
    { label: say('Whose'), value: chart.owner.name },
    ...(bought.some(Boolean) ? [{ label: say('Bought'), value: bought.filter(Boolean).join(', ') }] : []),
    ...(chart.edition ? [{ label: say('Edition'), value: chart.edition }] : []),
    ...(chart.alsoCalled.length > 0 ? [{ label: say('Also called'), value: chart.alsoCalled.join('; ') }] : []),
    ...(chart.note ? [{ label: say('Note'), value: chart.note }] : []),
  ]
}

const isWithSomebody = ({ home, current }: ChartDetail): boolean =>
  isChartWithSomebody({
    homePlaceId: home?.id ?? null,
    currentPlaceId: current?.id ?? null,
    currentKind: current?.kind ?? null,
  })

/** Whether it can be lent, and who has it. */
function Lending({ answer }: { answer: LendingAnswer }) {
  const { chart, because, loans, atHome, onPaper } = answer
  return (
    <>
      {loans.map(({ id, place, fromOn, dueOn, reason, standing, count, kind }) => (
        <div key={id} className={s.loan}>
          <LoanStandingWord
            standing={standing}
            word={standingWords(standing)}
            note={say('{rest}{midSentence} {label} since {fromOn}{rest2}: {reason}', {
              rest: chart.copies > 1 ? say('{count, plural, one {# copy} other {# copies}} ', { count }) : '',
              midSentence: midSentence(loanKindWords[kind]),
              label: place.label,
              fromOn: formatDate(fromOn),
              rest2: dueOn ? say(', due {dueOn}', { dueOn: formatDate(dueOn) }) : '',
              reason,
            })}
          />
          <LinkButton href={`/loans/${id}#back`}>{kind === 'borrow' ? say('Give it back') : say('Take it back')}</LinkButton>
        </div>
      ))}
      {because === 'is-a-file' ? (
        <p>
          {sayParts('Can it be lent? {fileWords}', { fileWords: fileWords() })}
          {onPaper.map(({ id, title }) => (
            <span key={id}>
              {sayParts('<link>The paper copy of {title}</link>.', {
                link: (words) => <Link href={`/charts/${id}`}>{words}</Link>,
                title,
              })}
            </span>
          ))}
        </p>
      ) : (
        because === null && (
          <div className={s.loan}>
            <span>
              {sayParts('It can be lent{rest}.{rest2}', {
                rest: chart.copies > 1 && say(': {atHome, plural, one {# copy} other {# copies}} at home', { atHome }),
                rest2:
                  answer.clashes.length > 0 &&
                  say(' Mind: {clashes}.', { clashes: answer.clashes.slice(0, 2).map(clashWords).join('. ') }),
              })}
            </span>
            <LinkButton href={`/loans/lend?chart=${chart.id}`}>{say('Lend it')}</LinkButton>
          </div>
        )
      )}
    </>
  )
}

function Designs({ chart, unit, isOut }: { chart: ChartDetail; unit: LengthUnit; isOut: boolean }) {
  const sizes = new Map(chart.designs.map(({ design }) => [design.id, stitchSize(design)]))
  const longest = Math.max(1, ...[...sizes.values()].flatMap((size) => (size ? [size.width, size.height] : [])))
  const outline = ({ design }: ChartDesign) => {
    const size = sizes.get(design.id)
    return size && <OutlineToScale widthStitches={size.width} heightStitches={size.height} longestStitches={longest} />
  }
  return (
    <Ledger
      caption={say('Designs of this chart')}
      rows={chart.designs}
      rowKey={({ design }) => design.id}
      rowHref={({ design }) => (chart.isGone ? undefined : `/designs/${design.id}`)}
      columns={[
        { key: 'outline', head: say('Outline to scale'), headIsHidden: true, cell: outline, phone: 'mark', width: '5rem' },
        {
          key: 'title',
          head: say('Design'),
          phone: 'lead',
          cell: ({ design }) => (
            <>
              <span className="title">{design.title}</span>
              {isOut && <small className="quiet"> {say('chart out')}</small>}
            </>
          ),
        },
        { key: 'size', head: say('Size'), cell: ({ design }) => sizeWords(design, unit) },
        {
          key: 'lists',
          head: say('Thread lists'),
          cell: ({ lists }) =>
            lists.length === 0
              ? say('no thread list yet')
              : lists
                  .map(({ name, lineCount }) =>
                    say('{name}, {lineCount, plural, one {# line} other {# lines}}', { name, lineCount }),
                  )
                  .join('; '),
        },
        {
          key: 'projects',
          head: say('Projects'),
          phone: 'side',
          isAtEnd: true,
          cell: ({ projectCount }) => (projectCount > 0 ? counted(projectCount, 'project') : ''),
        },
      ]}
    />
  )
}
