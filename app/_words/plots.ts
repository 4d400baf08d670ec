import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { PacePlot, Plots, SeasonPlot, StashPlot } from '#lib/db/plots/read-plots'
import type { Pace } from '#lib/planning/pace/pace'
import { type ClothOfCount, countHows } from '#lib/planning/plots/cloth-counts'
import { type OutNoun, type OutSpan, outNouns } from '#lib/planning/plots/out-ages'
import { nearnesses } from '#lib/planning/plots/season-cover'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { addDays } from '#lib/quantity/day'
import { listed } from './amounts'
import { nominalWords } from './cloth-count'
import { areaWords } from './cloth-size'

export const plotNames = ['pace', 'stash', 'seasons', 'cloth', 'out'] as const
export type PlotName = (typeof plotNames)[number]

export const plotTitles: Record<PlotName, string> = sayings({
  pace: 'Pace, week by week',
  stash: 'Stash in and out, month by month',
  seasons: 'What could be stitched, by season',
  cloth: 'Cloth by count',
  out: 'What is out, by how long',
})

const figure = (value: number): string => numberText(Number(value.toFixed(1)))
const whole = (value: number): string => numberText(Math.round(value))

/** "8 Sep" */
export const shortDay = (iso: string): string => formatDate(iso).split(' ').slice(1, 3).join(' ')
/** "Sep 2026" */
export const monthWords = (month: string): string => formatDate(`${month}-01`).split(' ').slice(2).join(' ')

/** "2,300 a week over 3 weeks". */
const meanWords = ({ amount, weeks }: Pace): string =>
  say('{whole} a week over {weeks, plural, one {# week} other {# weeks}}', { whole: whole(amount / weeks), weeks })

export function paceSentence({ weeks, isPartial, thisWeek, means }: PacePlot): string {
  const { stitchedWeeks, allWeeks } = means
  if (!stitchedWeeks || !allWeeks)
    return say('Nothing was logged in the last half year. What is logged on a project stands here week by week.')
  if (isPartial)
    return say('Only the week under way is logged: {thisWeek, plural, one {# stitch} other {# stitches}} so far.', { thisWeek })
  const away = weeks.filter(({ isAway }) => isAway).length
  return [
    say('Stitched weeks come to {mean}; all weeks to {mean2}{rest}.', {
      mean: meanWords(stitchedWeeks),
      mean2: meanWords(allWeeks),
      rest: away > 0 ? say(', {away, plural, one {# week} other {# weeks}} away among them', { away }) : '',
    }),
    thisWeek > 0 ? say('This week so far: {thisWeek, plural, one {# stitch} other {# stitches}}.', { thisWeek }) : '',
  ]
    .filter(Boolean)
    .join(' ')
}

export const stashNames = sayings({ thread: 'put-ups of thread', cloth: 'pieces of cloth', charts: 'copies of charts' })
export const stashKinds = ['thread', 'cloth', 'charts'] as const
export type StashKind = (typeof stashKinds)[number]

export const sumOf = (months: readonly { in: number; out: number; otherwise: number }[]) =>
  months.reduce((sum, month) => ({ in: sum.in + month.in, out: sum.out + month.out }), { in: 0, out: 0 })

export function stashSentence(stash: StashPlot): string {
  const parts = stashKinds.flatMap((kind) => {
    const { in: came, out: went } = sumOf(stash[kind])
    return came > 0 || went > 0
      ? [
          say('{figure} {stashNames} in and {rest} out', {
            figure: figure(came),
            stashNames: stashNames[kind],
            rest: went > 0 ? figure(went) : say('none'),
          }),
        ]
      : []
  })
  return parts.length === 0
    ? say('Nothing came in or went out in the last twelve months.')
    : say('In the last twelve months: {parts}. What was put on record counts in the month it was.', { parts: listed(parts) })
}

export const nearnessWords = sayings({
  now: 'stitchable now',
  near: 'within two put-ups',
  far: 'more to buy',
  unknown: 'no thread list',
})

export const seasonName = ({ name }: SeasonPlot[number]): string => name ?? say('No season')

export function seasonSentence(seasons: SeasonPlot): string {
  if (seasons.length === 0)
    return say('No designs yet. What charts hold stands here by season, with how much of it could be stitched.')
  const best = seasons.filter(({ name }) => name !== null).toSorted((a, b) => b.now - a.now)[0]
  return [
    best && best.now > 0
      ? say(
          'Most that could be begun at once is for {name}: {now, number} of {designs, plural, one {# design} other {# designs}}.',
          { name: best.name, now: best.now, designs: best.designs },
        )
      : '',
    say('By threads alone, from what is free. A design of two seasons counts in both.'),
  ]
    .filter(Boolean)
    .join(' ')
}

export const countHowWords = sayings({
  measured: 'counted by ruler',
  label: 'as on the label',
  guess: 'guessed',
  stale: 'washed since it was counted',
})

/** "28-count", "14-count, blocks". */
export const clothCountName = ({ label, weave }: Pick<ClothOfCount, 'label' | 'weave'>): string =>
  weave === 'block' ? say('{label}-count, blocks', { label }) : nominalWords(label)

export function clothSentence(cloth: readonly ClothOfCount[], unit: LengthUnit): string {
  if (cloth.length === 0) return say('No cloth on record.')
  const all = cloth.reduce((sum, { areaUm2 }) => sum + areaUm2, 0)
  const sure = cloth.reduce((sum, { areaUm2By }) => sum + areaUm2By.measured, 0)
  const pieces = cloth.reduce((sum, one) => sum + one.pieces, 0)
  return say('{pieces, plural, one {# piece} other {# pieces}}, {area} together; the count of {area2} was taken by ruler.', {
    pieces,
    area: areaWords(all, unit),
    area2: areaWords(sure, unit),
  })
}

export const outNounWords: Record<OutNoun, string> = sayings({
  thread: 'thread',
  cloth: 'cloth',
  chart: 'charts',
  notion: 'notions',
})

export function outSpanName({ upToDays }: Pick<OutSpan, 'upToDays'>): string {
  switch (upToDays) {
    case 7:
      return say('up to a week')
    case 28:
      return say('up to 4 weeks')
    case 91:
      return say('up to 3 months')
    case 365:
      return say('up to a year')
    case null:
      return say('longer than a year')
    default:
      return say('nobody wrote since when')
  }
}

export function outSentence(out: readonly OutSpan[]): string {
  const total = out.reduce((sum, span) => sum + span.total, 0)
  if (total === 0) return say('Everything is in its home.')
  const long = out.reduce((sum, { upToDays, total: some }) => (upToDays === 365 || upToDays === null ? sum + some : sum), 0)
  return say(
    '{total, plural, one {# thing} other {# things}} not in {total, plural, one {its home} other {their homes}}{rest}.',
    { total, rest: long > 0 ? say(', {long, number} of them for longer than three months', { long }) : '' },
  )
}

export type PlotCells = { heads: string[]; rows: (string | number)[][] }

/** A plot's numbers: the first cell of a row names it, the others are figures. */
export function plotCells(name: PlotName, plots: Plots, unit: LengthUnit): PlotCells {
  const area = (um2: number) => Math.round(um2 / (unit === 'in' ? 25_400 : 10_000) ** 2)
  switch (name) {
    case 'pace':
      return {
        heads: [say('Week from'), say('To'), say('Stitches'), say('Hours'), say('Away all week')],
        rows: plots.pace.weeks.map(({ startsOn, amount, minutes, isAway }) => [
          ...[startsOn, addDays(startsOn, 6), amount, Math.round(minutes / 6) / 10, isAway ? say('yes') : say('no')],
        ]),
      }
    case 'stash':
      return {
        heads: [
          say('Month'),
          ...stashKinds.flatMap((kind) => [
            say('In, {stashNames}', { stashNames: stashNames[kind] }),
            say('Out, {stashNames}', { stashNames: stashNames[kind] }),
            say('Counted or cut, {stashNames}', { stashNames: stashNames[kind] }),
          ]),
        ],
        rows: plots.stash.thread.map(({ month }, at) => [
          month,
          ...stashKinds.flatMap((kind) => {
            const found = plots.stash[kind][at]
            return [found?.in ?? 0, found?.out ?? 0, found?.otherwise ?? 0].map((value) => Number(value.toFixed(2)))
          }),
        ]),
      }
    case 'seasons':
      return {
        heads: [say('Season'), say('Designs'), ...nearnesses.map((nearness) => nearnessWords[nearness])],
        rows: plots.seasons.map((season) => [
          seasonName(season),
          season.designs,
          ...nearnesses.map((nearness) => season[nearness]),
        ]),
      }
    case 'cloth':
      return {
        heads: [
          say('Cloth'),
          say('Pieces'),
          say('sq {unit}', { unit }),
          ...countHows.map((how) => say('sq {unit}, {countHow}', { unit, countHow: countHowWords[how] })),
        ],
        rows: plots.cloth.map((cloth) => [
          clothCountName(cloth),
          cloth.pieces,
          area(cloth.areaUm2),
          ...countHows.map((how) => area(cloth.areaUm2By[how])),
        ]),
      }
    case 'out':
      return {
        heads: [say('Out for'), say('Things'), ...outNouns.map((noun) => outNounWords[noun])],
        rows: plots.out.map((span) => [outSpanName(span), span.total, ...outNouns.map((noun) => span[noun])]),
      }
  }
}
