import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import type { ChartKind, CoverKind, Design, DesignSize } from '#lib/chart/design'
import { type StitchSize, stitchSize } from '#lib/chart/design-size'
import type { Weave } from '#lib/cloth/cloth-piece'
import type { ChartRefusal, NewThread, WorkingProject } from '#lib/db/chart/chart-refusal'
import type { ChartMove } from '#lib/db/chart/move-chart'
import type { ChartMovement } from '#lib/db/chart/queries'
import type { ChartEnding } from '#lib/db/chart/remove-chart'
import type { ReturnChartRefusal } from '#lib/db/place/return-chart'
import { isPeople } from '#lib/place/place'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { type AllowanceProfile, allowanceProfiles } from '#lib/thread/allowance'
import { counted, listed } from '#words/amounts'
import { keptByRecordWords } from '#words/kept-by-record'

export const kindWords: Record<ChartKind, string> = {
  leaflet: 'Leaflet',
  booklet: 'Booklet or book',
  card: 'Card',
  issue: 'Magazine issue',
  kit: 'Kit',
  file: 'File',
}

export const weaveWords: Record<Weave, string> = { single: 'Single threads: evenweave, linen', block: 'Blocks' }

export const coverWords: Record<CoverKind, string> = {
  'band sampler': 'Band sampler',
  'motif sampler': 'Motif sampler',
  picture: 'Picture',
  full: 'Full: every square',
}

export const allowanceWords: Record<AllowanceProfile, string> = {
  'solid blocks': `Solid blocks, ${allowanceProfiles['solid blocks']}`,
  ordinary: `Ordinary, ${allowanceProfiles.ordinary}`,
  scattered: `Scattered stitches, ${allowanceProfiles.scattered}`,
}

export const moveWords: Record<ChartMove, { label: string; note: string }> = {
  take: { label: 'It is only taken there for a while', note: 'It keeps its place, and counts as out.' },
  home: { label: 'It lives there from now on', note: 'A new home.' },
}

export const endingWords: Record<ChartEnding, string> = {
  'passed on': 'It was sold or given away',
  lost: 'It is lost',
  slip: 'It was never here: a slip of the pen',
}

const statusWords: Record<ProjectStatus, string> = {
  wanted: 'wished for',
  planned: 'planned',
  kitted: 'kitted',
  stitching: 'being stitched',
  resting: 'resting',
  stitched: 'stitched, not made up',
  finished: 'finished',
  abandoned: 'given up',
}

/** "Wick Lane (being stitched) and Nine Wrens (planned)", at most three of them. */
function projectsListed(projects: readonly WorkingProject[]): string {
  const said = projects.slice(0, 3).map(({ title, status }) => `${title} (${statusWords[status]})`)
  return listed(projects.length > 3 ? [...said, `${projects.length - 3} more`] : said)
}

export function describeChartRefusal(refusal: ChartRefusal | ReturnChartRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return 'Somebody changed this meanwhile. Open it again in another window, look, and make your change there.'
    case 'no-such-owner':
      return 'That owner is not there any more. Choose another.'
    case 'title-held': {
      const held = refusal.charts.map(({ ownerName, copies, placeLabel }) =>
        [counted(copies, 'copy'), `of ${ownerName}`, placeLabel && `in ${placeLabel}`].filter(Boolean).join(' '),
      )
      return `A chart of this title is held already: ${listed(held)}. If this is another, tick the box and add it.`
    }
    case 'is-a-file':
      return 'This is a file for one person; lend the bought paper copy or suggest they buy it.'
    case 'is-lending':
      return `${refusal.label} is somebody: handed to them it is lent, with a day to be back by. Press “Lend it” instead.`
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return 'It is there already.'
    case 'no-home':
      return 'It has no place of its own yet. Say where it lives first.'
    case 'not-out':
      return 'It is where it lives already.'
    case 'in-work':
      return `It is worked from: ${projectsListed(refusal.projects)}. It stays while that is so.`
    case 'no-such-chart':
      return 'That chart is not there any more.'
    case 'no-such-design':
      return 'That design is not there any more.'
    case 'design-taken':
      return `The chart has a design called ${refusal.title} already. Give this one another title.`
    case 'merged-into':
      return `It is part of ${refusal.title} now. Take that merge back instead.`
    case 'only-design':
      return 'It is the only design of its chart. Take the chart out of the larder instead.'
    case 'design-worked':
      return `It is in the record of projects: ${projectsListed(refusal.projects)}. They keep it.`
    case 'list-taken':
      return `The design has a list called ${refusal.name} already. Give this one another name.`
    case 'which-line':
      return `Line ${refusal.lineNumber}: say which line of ${refusal.makerName} ${refusal.code} is of: ${refusal.lineNames.join(' or ')}.`
    case 'new-threads':
      return refusal.threads.length === 1
        ? 'One thread is not on record yet. Look for a slip; if it is meant, tick the box and save again.'
        : `${refusal.threads.length} threads are not on record yet. Look for slips; if all are meant, tick the box and save again.`
  }
}

/** "Larkholm Stranded Cotton 017: a new code; 0017 and 17 are on record". */
export function describeNewThread({ makerName, lineName, code, isNewMaker, isNewLine, closeCodes }: NewThread): string {
  const what = isNewMaker
    ? 'a new maker; six strands and 8 m a skein are taken where nothing else is said'
    : isNewLine
      ? `a new line of ${makerName}; six strands and 8 m a skein are taken where nothing else is said`
      : 'a new code'
  const near = closeCodes.length > 0 ? `; ${listed(closeCodes)} ${closeCodes.length === 1 ? 'is' : 'are'} on record` : ''
  return `${makerName} ${lineName} ${code}: ${what}${near}`
}

/** A line of a chart's history. */
export function describeChartMovement(movement: ChartMovement): string {
  const { kind, wholeDelta, from, to, fromOwnerName, toOwnerName } = movement
  const where = to ? ` to ${to.label}` : ''
  const whence = from ? ` from ${from.label}` : ''
  const copies = counted(Math.abs(wholeDelta), 'copy')
  switch (kind) {
    case 'receive':
      return `${copies} came in${where}`
    case 'take':
      return to && isPeople(to.kind) ? `handed${where}` : `taken${whence}${where}`
    case 'move':
      return `given a new home: moved${whence}${where}`
    case 'return':
      return `put back${whence}${where}`
    case 'correct':
      return wholeDelta === 0 ? 'set right' : `${copies} ${wholeDelta > 0 ? 'more' : 'fewer'}`
    case 'use':
      return `${copies} used in kits`
    case 'transfer':
      return toOwnerName ? `passed${fromOwnerName ? ` from ${fromOwnerName}` : ''} to ${toOwnerName}` : 'left the larder'
    case 'merge':
      return wholeDelta > 0 ? `${copies} entered as a double counted here` : 'counted with its double'
    case 'undo':
      return wholeDelta < 0 ? 'taken back' : `brought back${where}`
    default:
      return kind
  }
}

export const dayOf = (at: Date): string => formatDate(at.toISOString().slice(0, 10))

/** "140 × 98 stitches", or "8 × 6 in as ruled, about 112 × 84 stitches". */
export function sizeWords(design: Pick<Design, 'size' | 'advised'>, unit: LengthUnit): string {
  const { size } = design
  if (size.kind === 'unknown') return 'size not known'
  const stitches = stitchSize(design)
  const said = stitches && inStitches(stitches)
  if (size.kind === 'stitches') return said as string
  return said ? `${ruled(size, unit)}, about ${said}` : ruled(size, unit)
}

const inStitches = ({ width, height }: StitchSize): string => `${Math.round(width)} × ${Math.round(height)} stitches`
const ruled = (size: Extract<DesignSize, { kind: 'measured' }>, unit: LengthUnit): string =>
  `${formatClothSize(size, unit)} as ruled`

/** "3 of its 4 parts are here"; null for a chart that is whole in itself. */
export function partsSentence({ partsHeld, partsNeeded }: { partsHeld: number; partsNeeded: number }): string | null {
  if (partsNeeded === 1 && partsHeld === 1) return null
  if (partsHeld >= partsNeeded) return `All of its ${partsNeeded} parts are here.`
  const missing = partsNeeded - partsHeld
  const here = partsHeld === 0 ? 'None' : String(partsHeld)
  const verb = partsHeld === 1 ? 'is' : 'are'
  return partsNeeded === 1
    ? 'It is not here yet.'
    : `${here} of its ${partsNeeded} parts ${verb} here; ${missing === 1 ? 'one is' : `${missing} are`} still to come.`
}
