import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type Plots, readPlots } from '#lib/db/plots/read-plots'
import { countHows } from '#lib/planning/plots/cloth-counts'
import { outNouns } from '#lib/planning/plots/out-ages'
import { nearnesses } from '#lib/planning/plots/season-cover'
import type { Settings } from '#lib/settings/settings'
import { BarPlot } from '#ui/bar-plot'
import { ColumnPlot } from '#ui/column-plot'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PlotFigure } from '#ui/plot-figure'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { areaWords } from '#words/cloth-size'
import { calendarDay } from '#words/date'
import {
  clothCountName,
  clothSentence,
  countHowWords,
  monthWords,
  nearnessWords,
  outNounWords,
  outSentence,
  outSpanName,
  type PlotName,
  paceSentence,
  plotCells,
  plotNames,
  plotTitles,
  type StashKind,
  seasonName,
  seasonSentence,
  shortDay,
  stashKinds,
  stashNames,
  stashSentence,
  sumOf,
} from '#words/plots'
import s from './plots.module.css'

export const generateMetadata = (): Metadata => ({ title: say('In pictures') })

export default async function PlotsPage() {
  const { ownerIds, ownerName, settings } = await getViewer()
  const today = calendarDay(new Date())
  const plots = await readPlots({ ownerIds, today })
  const drawn: Record<PlotName, { says: string; drawing: React.ReactNode }> = {
    pace: { says: paceSentence(plots.pace), drawing: <PaceDrawing plots={plots} /> },
    stash: { says: stashSentence(plots.stash), drawing: <StashDrawing plots={plots} /> },
    seasons: { says: seasonSentence(plots.seasons), drawing: <SeasonDrawing plots={plots} /> },
    cloth: {
      says: clothSentence(plots.cloth, settings.lengthUnit),
      drawing: <ClothDrawing plots={plots} unit={settings.lengthUnit} />,
    },
    out: { says: outSentence(plots.out), drawing: <OutDrawing plots={plots} /> },
  }
  return (
    <>
      <PageHead
        title={say('In pictures')}
        crumbs={[{ label: say('Finishes'), href: '/finishes' }, { label: say('In pictures') }]}
        byline={ownerName && say('The work and the stash of {ownerName}, each with its numbers.', { ownerName })}
      />
      <PrintLine>{sayParts('The work and the stash of {ownerName}, {today}', { ownerName, today: formatDate(today) })}</PrintLine>
      {plotNames.map((name) => {
        const { heads, rows } = plotCells(name, plots, settings.lengthUnit)
        return (
          <PlotFigure
            key={name}
            id={name}
            title={plotTitles[name]}
            drawing={hasSomething(name, plots) && drawn[name].drawing}
            table={{ heads, rows: rows.map((row) => row.map(cellWords)) }}
            csvHref={`/finishes/plots/numbers/${name}.csv`}
          >
            {drawn[name].says} {name === 'out' && <Link href="/places#out">{say('What is out, thing by thing')}</Link>}
          </PlotFigure>
        )
      })}
    </>
  )
}

/** Days in words, figures with their thousands marked. */
const cellWords = (cell: string | number): string =>
  typeof cell === 'number'
    ? numberText(cell)
    : /^\d{4}-\d{2}-\d{2}$/.test(cell)
      ? formatDate(cell)
      : /^\d{4}-\d{2}$/.test(cell)
        ? monthWords(cell)
        : cell

function hasSomething(name: PlotName, { pace, stash, seasons, cloth, out }: Plots): boolean {
  switch (name) {
    case 'pace':
      return pace.means.allWeeks !== null
    case 'stash':
      return stashKinds.some((kind) => isMoved(stash[kind]))
    case 'seasons':
      return seasons.length > 0
    case 'cloth':
      return cloth.length > 0
    case 'out':
      return out.some(({ total }) => total > 0)
  }
}

type DrawingProps = { plots: Plots }

function PaceDrawing({ plots: { pace } }: DrawingProps) {
  const { stitchedWeeks, allWeeks } = pace.means
  return (
    <ColumnPlot
      label={say('{pace}: columns, the earliest week first. {paceSentence}', {
        pace: plotTitles.pace,
        paceSentence: paceSentence(pace),
      })}
      columns={pace.weeks.map(({ startsOn, isAway }) => ({ key: startsOn, label: shortDay(startsOn), mark: isAway }))}
      series={[{ name: say('Stitches'), fill: 'solid', values: pace.weeks.map(({ amount }) => Math.max(0, amount)) }]}
      levels={[
        ...(stitchedWeeks
          ? [{ name: say('mean of the weeks stitched'), value: stitchedWeeks.amount / stitchedWeeks.weeks }]
          : []),
        ...(allWeeks ? [{ name: say('mean of all weeks'), value: allWeeks.amount / allWeeks.weeks, isDashed: true }] : []),
      ]}
      markWords={say('away all week')}
      figure={(value) => numberText(value)}
    />
  )
}

const isMoved = (months: Plots['stash'][StashKind]): boolean => {
  const sum = sumOf(months)
  return sum.in > 0 || sum.out > 0
}

function StashDrawing({ plots: { stash } }: DrawingProps) {
  return stashKinds
    .filter((kind) => isMoved(stash[kind]))
    .map((kind) => (
      <div key={kind} className={s.kind}>
        <h3>{stashNames[kind].replace(/^./, (first) => first.toUpperCase())}</h3>
        <ColumnPlot
          label={say('{stash}, {stashNames}: what came in above the line, what went out below it.', {
            stash: plotTitles.stash,
            stashNames: stashNames[kind],
          })}
          columns={stash[kind].map(({ month }) => ({ key: month, label: monthWords(month).slice(0, 3) }))}
          series={[
            { name: say('in'), fill: 'hatched', values: stash[kind].map((month) => Math.max(0, month.in)) },
            { name: say('out'), fill: 'solid', isDown: true, values: stash[kind].map((month) => Math.max(0, month.out)) },
          ]}
          figure={(value) => numberText(value)}
        />
      </div>
    ))
}

const SeasonDrawing = ({ plots: { seasons } }: DrawingProps) => (
  <BarPlot
    label={say('{seasons}: a bar a season. {seasonSentence}', {
      seasons: plotTitles.seasons,
      seasonSentence: seasonSentence(seasons),
    })}
    series={[
      { name: nearnessWords.now, fill: 'solid' },
      { name: nearnessWords.near, fill: 'hatched' },
      { name: nearnessWords.far, fill: 'open' },
      { name: nearnessWords.unknown, fill: 'dotted' },
    ]}
    rows={seasons.map((season) => ({
      key: season.seasonId ?? 'none',
      label: seasonName(season),
      parts: nearnesses.map((nearness) => season[nearness]),
      figure: say('{now, number} of {designs, number}', { now: season.now, designs: season.designs }),
    }))}
  />
)

const ClothDrawing = ({ plots: { cloth }, unit }: DrawingProps & { unit: Settings['lengthUnit'] }) => (
  <BarPlot
    label={say('{cloth}: a bar a count. {clothSentence}', { cloth: plotTitles.cloth, clothSentence: clothSentence(cloth, unit) })}
    series={[
      { name: countHowWords.measured, fill: 'solid' },
      { name: countHowWords.label, fill: 'hatched' },
      { name: countHowWords.guess, fill: 'open' },
      { name: countHowWords.stale, fill: 'dotted' },
    ]}
    rows={cloth.map((one) => ({
      key: `${one.weave} ${one.label}`,
      label: clothCountName(one),
      parts: countHows.map((how) => one.areaUm2By[how]),
      figure: areaWords(one.areaUm2, unit),
    }))}
  />
)

const OutDrawing = ({ plots: { out } }: DrawingProps) => (
  <BarPlot
    label={say('{out}: a bar a span of time. {outSentence}', { out: plotTitles.out, outSentence: outSentence(out) })}
    series={[
      { name: outNounWords.thread, fill: 'solid' },
      { name: outNounWords.cloth, fill: 'hatched' },
      { name: outNounWords.chart, fill: 'open' },
      { name: outNounWords.notion, fill: 'dotted' },
    ]}
    rows={out.map((span) => ({
      key: String(span.upToDays),
      label: outSpanName(span),
      parts: outNouns.map((noun) => span[noun]),
      figure: numberText(span.total),
    }))}
  />
)
