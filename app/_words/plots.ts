import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import type { PacePlot, Plots, SeasonPlot, StashPlot } from '#lib/db/plots/read-plots'
import type { Pace } from '#lib/planning/pace/pace'
import { type ClothOfCount, countHows } from '#lib/planning/plots/cloth-counts'
import { type OutNoun, type OutSpan, outNouns } from '#lib/planning/plots/out-ages'
import { nearnesses } from '#lib/planning/plots/season-cover'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { addDays } from '#lib/quantity/day'
import { counted, listed } from './amounts'
import { areaWords } from './cloth-size'

export const plotNames = ['pace', 'stash', 'seasons', 'cloth', 'out'] as const
export type PlotName = (typeof plotNames)[number]

export const plotTitles: Record<PlotName, string> = {
  pace: 'Pace, week by week',
  stash: 'Stash in and out, month by month',
  seasons: 'What could be stitched, by season',
  cloth: 'Cloth by count',
  out: 'What is out, by how long',
}

const figure = (value: number): string => numberText(Number(value.toFixed(1)))
const whole = (value: number): string => numberText(Math.round(value))

/** "8 Sep" */
export const shortDay = (iso: string): string => formatDate(iso).split(' ').slice(1, 3).join(' ')
/** "Sep 2026" */
export const monthWords = (month: string): string => formatDate(`${month}-01`).split(' ').slice(2).join(' ')

/** "2,300 a week over 3 weeks". */
const meanWords = ({ amount, weeks }: Pace): string => `${whole(amount / weeks)} a week over ${counted(weeks, 'week')}`

export function paceSentence({ weeks, isPartial, thisWeek, means }: PacePlot): string {
  const { stitchedWeeks, allWeeks } = means
  if (!stitchedWeeks || !allWeeks)
    return 'Nothing was logged in the last half year. What is logged on a project stands here week by week.'
  if (isPartial) return `Only the week under way is logged: ${counted(thisWeek, 'stitch')} so far.`
  const away = weeks.filter(({ isAway }) => isAway).length
  return [
    `Stitched weeks come to ${meanWords(stitchedWeeks)}; all weeks to ${meanWords(allWeeks)}${away > 0 ? `, ${counted(away, 'week')} away among them` : ''}.`,
    thisWeek > 0 ? `This week so far: ${counted(thisWeek, 'stitch')}.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}

export const stashNames = { thread: 'put-ups of thread', cloth: 'pieces of cloth', charts: 'copies of charts' } as const
export const stashKinds = ['thread', 'cloth', 'charts'] as const
export type StashKind = (typeof stashKinds)[number]

export const sumOf = (months: readonly { in: number; out: number; otherwise: number }[]) =>
  months.reduce((sum, month) => ({ in: sum.in + month.in, out: sum.out + month.out }), { in: 0, out: 0 })

export function stashSentence(stash: StashPlot): string {
  const parts = stashKinds.flatMap((kind) => {
    const { in: came, out: went } = sumOf(stash[kind])
    return came > 0 || went > 0 ? [`${figure(came)} ${stashNames[kind]} in and ${went > 0 ? figure(went) : 'none'} out`] : []
  })
  return parts.length === 0
    ? 'Nothing came in or went out in the last twelve months.'
    : `In the last twelve months: ${listed(parts)}. What was put on record counts in the month it was.`
}

export const nearnessWords = {
  now: 'stitchable now',
  near: 'within two put-ups',
  far: 'more to buy',
  unknown: 'no thread list',
} as const

export const seasonName = ({ name }: SeasonPlot[number]): string => name ?? 'No season'

export function seasonSentence(seasons: SeasonPlot): string {
  if (seasons.length === 0)
    return 'No designs yet. What charts hold stands here by season, with how much of it could be stitched.'
  const best = seasons.filter(({ name }) => name !== null).toSorted((a, b) => b.now - a.now)[0]
  return [
    best && best.now > 0
      ? `Most that could be begun at once is for ${best.name}: ${numberText(best.now)} of ${counted(best.designs, 'design')}.`
      : '',
    'By threads alone, from what is free. A design of two seasons counts in both.',
  ]
    .filter(Boolean)
    .join(' ')
}

export const countHowWords = {
  measured: 'counted by ruler',
  label: 'as on the label',
  guess: 'guessed',
  stale: 'washed since it was counted',
} as const

/** "28-count", "14-count, blocks". */
export const clothCountName = ({ label, weave }: Pick<ClothOfCount, 'label' | 'weave'>): string =>
  `${label}-count${weave === 'block' ? ', blocks' : ''}`

export function clothSentence(cloth: readonly ClothOfCount[], unit: LengthUnit): string {
  if (cloth.length === 0) return 'No cloth on record.'
  const all = cloth.reduce((sum, { areaUm2 }) => sum + areaUm2, 0)
  const sure = cloth.reduce((sum, { areaUm2By }) => sum + areaUm2By.measured, 0)
  const pieces = cloth.reduce((sum, one) => sum + one.pieces, 0)
  return `${counted(pieces, 'piece')}, ${areaWords(all, unit)} together; the count of ${areaWords(sure, unit)} was taken by ruler.`
}

export const outNounWords: Record<OutNoun, string> = {
  thread: 'thread',
  cloth: 'cloth',
  chart: 'charts',
  notion: 'notions',
}

export function outSpanName({ upToDays }: Pick<OutSpan, 'upToDays'>): string {
  switch (upToDays) {
    case 7:
      return 'up to a week'
    case 28:
      return 'up to 4 weeks'
    case 91:
      return 'up to 3 months'
    case 365:
      return 'up to a year'
    case null:
      return 'longer than a year'
    default:
      return 'nobody wrote since when'
  }
}

export function outSentence(out: readonly OutSpan[]): string {
  const total = out.reduce((sum, span) => sum + span.total, 0)
  if (total === 0) return 'Everything is in its home.'
  const long = out.reduce((sum, { upToDays, total: some }) => (upToDays === 365 || upToDays === null ? sum + some : sum), 0)
  return `${counted(total, 'thing')} not in ${total === 1 ? 'its home' : 'their homes'}${long > 0 ? `, ${numberText(long)} of them for longer than three months` : ''}.`
}

export type PlotCells = { heads: string[]; rows: (string | number)[][] }

/** A plot's numbers: the first cell of a row names it, the others are figures. */
export function plotCells(name: PlotName, plots: Plots, unit: LengthUnit): PlotCells {
  const area = (um2: number) => Math.round(um2 / (unit === 'in' ? 25_400 : 10_000) ** 2)
  switch (name) {
    case 'pace':
      return {
        heads: ['Week from', 'To', 'Stitches', 'Hours', 'Away all week'],
        rows: plots.pace.weeks.map(({ startsOn, amount, minutes, isAway }) => [
          ...[startsOn, addDays(startsOn, 6), amount, Math.round(minutes / 6) / 10, isAway ? 'yes' : 'no'],
        ]),
      }
    case 'stash':
      return {
        heads: [
          'Month',
          ...stashKinds.flatMap((kind) => [
            `In, ${stashNames[kind]}`,
            `Out, ${stashNames[kind]}`,
            `Counted or cut, ${stashNames[kind]}`,
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
        heads: ['Season', 'Designs', ...nearnesses.map((nearness) => nearnessWords[nearness])],
        rows: plots.seasons.map((season) => [
          seasonName(season),
          season.designs,
          ...nearnesses.map((nearness) => season[nearness]),
        ]),
      }
    case 'cloth':
      return {
        heads: ['Cloth', 'Pieces', `sq ${unit}`, ...countHows.map((how) => `sq ${unit}, ${countHowWords[how]}`)],
        rows: plots.cloth.map((cloth) => [
          clothCountName(cloth),
          cloth.pieces,
          area(cloth.areaUm2),
          ...countHows.map((how) => area(cloth.areaUm2By[how])),
        ]),
      }
    case 'out':
      return {
        heads: ['Out for', 'Things', ...outNouns.map((noun) => outNounWords[noun])],
        rows: plots.out.map((span) => [outSpanName(span), span.total, ...outNouns.map((noun) => span[noun])]),
      }
  }
}
