import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { z } from 'zod'
import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import { finishedSize } from '#lib/cloth/finished-size'
import { beadsOf } from '#lib/coverage/need'
import { whatIfHref } from '#lib/coverage/what-if-query'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { type CoveredList, coverageOfDesign, type DesignCoverage } from '#lib/db/coverage/design-coverage'
import { countDesignKits, listKitBatches } from '#lib/db/coverage/design-kits'
import { listChartLoans } from '#lib/db/loan/queries'
import { findChartOfUnited } from '#lib/db/merging/merging'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { isChartWithSomebody } from '#lib/loan/chart-out'
import type { Settings } from '#lib/settings/settings'
import { allowanceOf, allowanceProfileNames, allowanceProfiles } from '#lib/thread/allowance'
import { BrokenPromises } from '#trade/broken-promises'
import { hoopWords } from '#trade/hoop'
import { PlaceLabel } from '#trade/place-label'
import { Tally } from '#trade/tray'
import { WordsUsed } from '#trade/word'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { JumpMarks } from '#ui/jump-marks'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { choiceSentence } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { countPhrases } from '#words/cover'
import { calendarDay } from '#words/date'
import { givenName } from '#words/given'
import { profileWords } from '../../_charts/words'
import { ChartOutNotice } from '../../_loans/chart-out-notice'
import { ClothSection } from './cloth-section'
import { CoverTable } from './cover-table'
import s from './design.module.css'
import { KitsSection, mostKits } from './kits-section'
import { ListsSection } from './lists-section'
import { RouteSection } from './route-section'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

const choicesSchema = z.object({
  list: z.string().optional().catch(undefined),
  piece: z.string().optional().catch(undefined),
  over: z.enum(['1', '2']).optional().catch(undefined),
})

const kitsSchema = z.object({
  kits: z.coerce.number().int().min(1).max(mostKits).nullable().default(null).catch(null),
  spares: z.coerce.number().int().min(0).max(mostKits).nullable().default(null).catch(null),
})

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail?.design.title ?? say('Not found') }
}

export default async function DesignPage({ params, searchParams }: Props) {
  const { designId } = await params
  const address = await searchParams
  const choices = choicesSchema.parse(address)
  const askedKits = kitsSchema.parse(address)
  const [viewer, detail, answers, broken] = await Promise.all([
    getViewer(),
    findDesign(designId),
    getAnswers(),
    listBrokenPromises({ designId }),
  ])
  if (!detail) {
    const chartId = await findChartOfUnited(designId)
    if (chartId) redirect(`/charts/${chartId}`)
    notFound()
  }
  const { design, chart, themes, lists, projects } = detail
  const { ownerIds, settings } = viewer
  const isChartOut = isChartWithSomebody({
    homePlaceId: chart.home?.id ?? null,
    currentPlaceId: chart.current?.id ?? null,
    currentKind: chart.current?.kind ?? null,
  })
  const chartLoans = isChartOut ? await listChartLoans(chart.id, calendarDay(new Date())) : []
  const over = choices.over === undefined ? null : (Number(choices.over) as 1 | 2)
  const coverage =
    coverageOfDesign(answers, { design, lists }, { ownerIds, pieceId: choices.piece, over }) ??
    coverageOfDesign(answers, { design, lists }, { ownerIds, over })
  if (!coverage) notFound()
  const shown =
    coverage.lists.find(({ list }) => list.id === (choices.list ?? coverage.comparison[0]?.listId)) ?? coverage.lists[0] ?? null
  const hrefOf = (listId: string) => `/designs/${designId}?${new URLSearchParams({ ...choices, list: listId })}#threads`
  const size = stitchSize(design)
  const ofAxis = (axis: string) => themes.filter((theme) => theme.axis === axis).map(({ name }) => givenName(name))
  const workedWords = coverage.workedOn
    ? say('{ends} over {overCase, select, yes {two} other {one}}', {
        ends: countWords(coverage.workedOn.ends, coverage.workedOn.picks),
        overCase: coverage.workedOn.over === 2,
      })
    : design.advised
      ? say('{count} over {overCase, select, yes {two} other {one}}', {
          count: countWords(design.advised.count, design.advised.count),
          overCase: design.advised.over === 2,
        })
      : null
  const workedSize = size && coverage.workedOn && finishedSize({ ...size, ...coverage.workedOn })
  const isOverTwo = (coverage.workedOn ?? design.advised)?.over === 2
  const best = coverage.cloth.kind === 'answer' ? coverage.cloth.choice.best : null
  const cut = best?.fit.cut ?? (coverage.cloth.kind === 'answer' ? coverage.cloth.choice.toBuy : null)
  const kits =
    shown &&
    countDesignKits(answers, { covered: shown, chart }, { ownerIds, kits: askedKits.kits ?? 1, spares: askedKits.spares })
  const kitBatches = shown ? await listKitBatches(answers, designId, ownerIds) : []
  const beads = shown ? beadsOf(shown.list) : 0

  return (
    <>
      <PageHead
        title={design.title}
        isWork
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          ...chart.designers.slice(0, 1).map(({ id, name }) => ({ label: name, href: `/charts?designer=${id}` })),
          { label: chart.title === design.title ? givenName(chart.kind) : chart.title, href: `/charts/${chart.id}` },
        ]}
        byline={
          <span className={s.byline}>
            {[
              listed(chart.designers.map(({ name }) => name)),
              ...ofAxis('season'),
              listed(ofAxis('subject')),
              listed(ofAxis('form')),
            ]
              .filter(Boolean)
              .join(' · ')}{' '}
            · {givenName(chart.kind)} {chart.current ? say('in ') : ''}
            {chart.current ? (
              <PlaceLabel
                label={chart.current.label}
                href={`/places/${chart.current.id}`}
                livesIn={chart.home && chart.home.id !== chart.current.id ? chart.home.label : undefined}
              />
            ) : (
              say('without a place yet')
            )}
          </span>
        }
        actions={
          <>
            <LinkButton kind="first" href={`/projects/new?design=${design.id}`}>
              {say('Start this')}
            </LinkButton>
            <LinkButton href={`/designs/${design.id}/edit`}>{say('Change it')}</LinkButton>
          </>
        }
      >
        <p className={s.verdict}>
          <Verdict shown={shown} coverage={coverage} />{' '}
          {coverage.cloth.kind === 'answer' &&
            say('Cloth: {choiceSentence}.', { choiceSentence: choiceSentence(coverage.cloth.choice, settings.lengthUnit) })}
        </p>
      </PageHead>
      {shown && shown.cover.threads.length > 0 && (
        <Tally
          label={say('The threads in key order')}
          items={shown.cover.threads.map(({ threadId, status }) => ({
            key: threadId,
            state: status,
            name: shortCode(coverage.threads.get(threadId)?.thread.code ?? '?'),
          }))}
        />
      )}
      <BrokenPromises broken={broken} unit={settings.threadUnit} />
      {isChartOut && <ChartOutNotice loans={chartLoans} />}
      {chart.partsHeld < chart.partsNeeded && (
        <Notice
          kind="caution"
          title={say('{partsHeld} of {partsNeeded} parts held', { partsHeld: chart.partsHeld, partsNeeded: chart.partsNeeded })}
        >
          {say('This design is issued in parts; it cannot be stitched whole until the others are here.')}
        </Notice>
      )}
      <Facts
        items={[
          {
            label: say('Stitches'),
            value: size
              ? say('{width, number} wide × {height, number} high{isEstimated, select, yes {, estimated} other {}}', {
                  width: size.width,
                  height: size.height,
                  isEstimated: size.isEstimated,
                })
              : say('not known'),
          },
          ...(coverage.cloth.kind === 'answer' && (best || cut)
            ? [
                {
                  label: say('Finished{rest}', {
                    rest: best
                      ? say(', on {ends}', { ends: countWords(best.piece.ends, best.piece.picks) })
                      : workedWords
                        ? `, ${workedWords}`
                        : '',
                  }),
                  value: best
                    ? `${formatClothSize(best.fit.finished, settings.lengthUnit)} · ${formatClothSize(best.fit.finished, settings.lengthUnit === 'in' ? 'cm' : 'in')}`
                    : say('see cloth to buy'),
                },
                ...(cut
                  ? [
                      {
                        label: say('Cut, {finishing}', { finishing: givenName(settings.finishing) }),
                        value: formatClothSize(cut, settings.lengthUnit),
                      },
                    ]
                  : []),
              ]
            : []),
          ...(workedWords
            ? [
                {
                  label: say('Threads reckoned on'),
                  value: `${workedWords}${workedSize ? say(', where it comes out at {size}', { size: formatClothSize(workedSize, settings.lengthUnit) }) : ''}`,
                },
              ]
            : []),
          { label: say('Allowance'), value: allowanceWords(design, settings) },
          ...(beads > 0 ? [{ label: say('Beads'), value: numberText(beads) }] : []),
          { label: say('Copies'), value: counted(chart.copies, 'copy') },
        ]}
      />
      <JumpMarks
        items={[
          { href: '#threads', label: say('Threads') },
          { href: '#cloth', label: say('Cloth') },
          { href: '#where', label: say('Where everything is') },
          ...(kits ? [{ href: '#kits' as const, label: say('Kits') }] : []),
          ...(coverage.lists.length > 1 ? [{ href: '#lists' as const, label: say('Thread lists compared') }] : []),
        ]}
      />
      <Section
        title={shown ? say('Threads, {name}', { name: shown.list.name.toLowerCase() }) : say('Threads')}
        id="threads"
        note={
          shown
            ? say('Need is on the card, free is wound on it, all to one scale. Press a state to see its arithmetic.')
            : undefined
        }
        actions={
          <>
            {coverage.workedOn && <Link href={`/designs/${design.id}`}>{say('Reckon on the chart’s own cloth')}</Link>}
            {shown && isOverTwo && (
              <Link href={`/designs/${design.id}?${new URLSearchParams({ ...choices, list: shown.list.id, over: '1' })}#threads`}>
                {say('What if it is worked over one?')}
              </Link>
            )}
            {shown && <Link href={`/designs/${design.id}/swaps?list=${shown.list.id}`}>{say('Look for stand-ins')}</Link>}
            {shown && shown.cover.toBuy.length > 0 && (
              <Link href={ifBought(shown)}>{say('What else would buying these open?')}</Link>
            )}
            {shown && <Link href={`/designs/${design.id}/lists/${shown.list.id}`}>{say('Change this list')}</Link>}
            <Link href={`/designs/${design.id}/lists/new`}>{say('Add a list')}</Link>
            <Link href={`/charts/read?design=${design.id}`}>{say('Read a key')}</Link>
          </>
        }
      >
        {shown && shown.cover.threads.length > 0 ? (
          <>
            <WordsUsed of={['key', 'need', 'free', 'put-up', 'lot', 'promised', 'out', 'strand', 'blend']} />
            <CoverTable answers={answers} coverage={coverage} covered={shown} ownerIds={ownerIds} unit={settings.threadUnit} />
          </>
        ) : (
          <Empty
            title={say('No threads yet')}
            actions={
              <>
                <LinkButton href={`/charts/read?design=${design.id}`}>{say('Read its key')}</LinkButton>
                <LinkButton href={`/designs/${design.id}/lists/new`}>{say('Add its thread list')}</LinkButton>
              </>
            }
          >
            {say('Once the key is in, each of its threads is held against your stock here.')}
          </Empty>
        )}
      </Section>
      <ClothSection
        design={design}
        answer={coverage.cloth}
        places={answers.world.places}
        settings={settings}
        workedOver={coverage.workedOn?.over ?? null}
      />
      <RouteSection answers={answers} detail={detail} coverage={coverage} covered={shown} ownerIds={ownerIds} />
      {coverage.lists.length > 1 && shown && (
        <ListsSection coverage={coverage} designId={design.id} shownListId={shown.list.id} hrefOf={hrefOf} />
      )}
      {shown && kits && (
        <KitsSection
          answers={answers}
          coverage={coverage}
          kits={kits}
          batches={kitBatches}
          choices={{ ...choices, list: shown.list.id }}
          asked={askedKits}
          designId={design.id}
          cut={cut}
          settings={settings}
        />
      )}
      {projects.length > 0 && (
        <Section title={say('Worked before and now')} id="projects">
          <ul>
            {projects.map((project) => (
              <li key={project.id}>
                <Link href={`/projects/${project.id}`}>
                  {hoopWords[project.status]}
                  {project.finishedOn ? ` ${formatDate(project.finishedOn)}` : ''}
                </Link>
                {project.place && sayParts(' in {label}', { label: project.place.label })}
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}

/** The question what else could be stitched once all that this list wants is bought. */
const ifBought = ({ cover }: CoveredList): string =>
  whatIfHref({
    buy: cover.threads.flatMap(({ threadId, status, shortPutUps, lotToBuy }) =>
      status === 'short' || status === 'none' ? [{ threadId, putUps: shortPutUps, lot: lotToBuy?.lot ?? null }] : [],
    ),
    unpack: [],
  })

/** "1.5 (ordinary)": the factor and where it comes from. */
function allowanceWords(design: Design, settings: Settings): string {
  const factor = allowanceOf(design, settings)
  const profile = allowanceProfileNames.find((name) => allowanceProfiles[name] === factor)
  const words =
    design.allowance === null
      ? [profile && profileWords[profile], say('as in Settings')]
      : [design.allowance.profile === 'own' ? say('this design’s own') : profile && profileWords[profile]]
  return `${numberText(factor)} (${words.filter(Boolean).join(', ')})`
}

/** As many threads as one sentence bears. */
const mostNamed = 4

/** What is missing, by name, where one looks first: "Larkholm 0742 and Brindlequay 17". */
function shortNames({ toBuy: short }: CoveredList['cover'], { threads: tags }: DesignCoverage): string {
  const names = short.slice(0, short.length > mostNamed + 1 ? mostNamed : short.length).map(({ threadId }) => {
    const known = tags.get(threadId)
    return known ? `${known.line.makerName} ${known.thread.code}` : say('A removed thread')
  })
  return listed(
    short.length > names.length ? [...names, say('{more, number} more', { more: short.length - names.length })] : names,
  )
}

const shortCode = (code: string): string => (code.length > 6 ? `${code.slice(0, 5)}…` : code)

/** The answer in a sentence: stitchable or not, the counts, what to buy, and a nearer list. */
function Verdict({ shown, coverage }: { shown: CoveredList | null; coverage: DesignCoverage }) {
  if (!shown || shown.cover.threadCount === 0) return <b>{say('Not known yet: its thread list is not in.')}</b>
  const { cover, list } = shown
  if (cover.isStitchable) {
    return (
      <>
        {sayParts(
          '<b>Stitchable now.</b> {count, plural, =1 {Its one thread is} =2 {Both threads are} other {All # threads are}} ready{isMixed, select, yes {, some in mixed lots} other {}}.',
          { b: (words) => <b>{words}</b>, count: cover.threadCount, isMixed: cover.status === 'mixed' },
        )}
      </>
    )
  }
  const nearest = coverage.comparison[0]
  const phrases = countPhrases(cover)
  return (
    <>
      <b>{cover.isStitchableWithSwaps ? say('Stitchable with swaps.') : say('Not yet.')}</b>{' '}
      {cover.shortPutUps > 0
        ? sayParts('{phrases}, and <b>{shortPutUps} to buy</b>: {named}.', {
            phrases: phrases.join(', '),
            b: (words) => <b className="do">{words}</b>,
            shortPutUps: cover.shortPutUps,
            named: shortNames(cover, coverage),
          })
        : `${listed(phrases)}.`}
      {nearest && nearest.listId !== list.id && sayParts(' {name} is nearer.', { name: <a href="#lists">{nearest.name}</a> })}
    </>
  )
}
