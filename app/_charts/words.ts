import { formatDate } from '#language/day'
import { listText, numberText } from '#language/figures'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
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

export const kindWords: Record<ChartKind, string> = sayings({
  leaflet: 'Leaflet',
  booklet: 'Booklet or book',
  card: 'Card',
  issue: 'Magazine issue',
  kit: 'Kit',
  file: 'File',
})

export const weaveWords: Record<Weave, string> = sayings({ single: 'Single threads: evenweave, linen', block: 'Blocks' })

export const coverWords: Record<CoverKind, string> = sayings({
  'band sampler': 'Band sampler',
  'motif sampler': 'Motif sampler',
  picture: 'Picture',
  full: 'Full: every square',
})

/** "solid blocks", within a sentence. */
export const profileWords: Record<AllowanceProfile, string> = sayings({
  'solid blocks': 'solid blocks',
  ordinary: 'ordinary',
  scattered: 'scattered',
})

export const allowanceWords = (): Record<AllowanceProfile, string> => ({
  'solid blocks': say('Solid blocks, {factor}', { factor: numberText(allowanceProfiles['solid blocks']) }),
  ordinary: say('Ordinary, {factor}', { factor: numberText(allowanceProfiles.ordinary) }),
  scattered: say('Scattered stitches, {factor}', { factor: numberText(allowanceProfiles.scattered) }),
})

export const moveWords: Record<ChartMove, { label: string; note: string }> = sayings({
  take: { label: 'It is only taken there for a while', note: 'It keeps its place, and counts as out.' },
  home: { label: 'It lives there from now on', note: 'A new home.' },
})

export const endingWords: Record<ChartEnding, string> = sayings({
  'passed on': 'It was sold or given away',
  lost: 'It is lost',
  slip: 'It was never here: a slip of the pen',
})

const statusWords: Record<ProjectStatus, string> = sayings({
  wanted: 'wished for',
  planned: 'planned',
  kitted: 'kitted',
  stitching: 'being stitched',
  resting: 'resting',
  stitched: 'stitched, not made up',
  finished: 'finished',
  abandoned: 'given up',
})

/** "Wick Lane (being stitched) and Nine Wrens (planned)", at most three of them. */
function projectsListed(projects: readonly WorkingProject[]): string {
  const said = projects.slice(0, 3).map(({ title, status }) => `${title} (${statusWords[status]})`)
  return listed(projects.length > 3 ? [...said, say('{projects} more', { projects: projects.length - 3 })] : said)
}

export function describeChartRefusal(refusal: ChartRefusal | ReturnChartRefusal): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody changed this meanwhile. Open it again in another window, look, and make your change there.')
    case 'no-such-owner':
      return say('That owner is not there any more. Choose another.')
    case 'title-held': {
      const held = refusal.charts.map(({ ownerName, copies, placeLabel }) =>
        [counted(copies, 'copy'), say('of {ownerName}', { ownerName }), placeLabel && say('in {place}', { place: placeLabel })]
          .filter(Boolean)
          .join(' '),
      )
      return say('A chart of this title is held already: {held}. If this is another, tick the box and add it.', {
        held: listed(held),
      })
    }
    case 'is-a-file':
      return say('This is a file for one person; lend the bought paper copy or suggest they buy it.')
    case 'is-lending':
      return say('{label} is somebody: handed to them it is lent, with a day to be back by. Press “Lend it” instead.', {
        label: refusal.label,
      })
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return say('It is there already.')
    case 'no-home':
      return say('It has no place of its own yet. Say where it lives first.')
    case 'not-out':
      return say('It is where it lives already.')
    case 'in-work':
      return say('It is worked from: {projectsListed}. It stays while that is so.', {
        projectsListed: projectsListed(refusal.projects),
      })
    case 'no-such-chart':
      return say('That chart is not there any more.')
    case 'no-such-design':
      return say('That design is not there any more.')
    case 'design-taken':
      return say('The chart has a design called {title} already. Give this one another title.', { title: refusal.title })
    case 'merged-into':
      return say('It is part of {title} now. Take that merge back instead.', { title: refusal.title })
    case 'only-design':
      return say('It is the only design of its chart. Take the chart out of the larder instead.')
    case 'design-worked':
      return say('It is in the record of projects: {projectsListed}. They keep it.', {
        projectsListed: projectsListed(refusal.projects),
      })
    case 'list-taken':
      return say('The design has a list called {name} already. Give this one another name.', { name: refusal.name })
    case 'which-line':
      return say('Line {lineNumber}: say which line of {makerName} {code} is of: {lineNames}.', {
        lineNumber: refusal.lineNumber,
        makerName: refusal.makerName,
        code: refusal.code,
        lineNames: listText(refusal.lineNames, 'disjunction'),
      })
    case 'new-threads':
      return refusal.threads.length === 1
        ? say('One thread is not on record yet. Look for a slip; if it is meant, tick the box and save again.')
        : say('{threads} threads are not on record yet. Look for slips; if all are meant, tick the box and save again.', {
            threads: refusal.threads.length,
          })
  }
}

/** "Larkholm Stranded Cotton 017: a new code; 0017 and 17 are on record". */
export function describeNewThread({ makerName, lineName, code, isNewMaker, isNewLine, closeCodes }: NewThread): string {
  const what = isNewMaker
    ? say('a new maker; six strands and 8 m a skein are taken where nothing else is said')
    : isNewLine
      ? say('a new line of {makerName}; six strands and 8 m a skein are taken where nothing else is said', { makerName })
      : say('a new code')
  const near =
    closeCodes.length > 0
      ? say('; {closeCodes} {closeCodes2, plural, one {is} other {are}} on record', {
          closeCodes: listed(closeCodes),
          closeCodes2: closeCodes.length,
        })
      : ''
  return `${makerName} ${lineName} ${code}: ${what}${near}`
}

/** A line of a chart's history. */
export function describeChartMovement(movement: ChartMovement): string {
  const { kind, wholeDelta, from, to, fromOwnerName, toOwnerName } = movement
  const where = to ? say(' to {label}', { label: to.label }) : ''
  const whence = from ? say(' from {label}', { label: from.label }) : ''
  const copies = counted(Math.abs(wholeDelta), 'copy')
  switch (kind) {
    case 'receive':
      return say('{copies} came in{where}', { copies, where })
    case 'take':
      return to && isPeople(to.kind) ? say('handed{where}', { where }) : say('taken{whence}{where}', { whence, where })
    case 'move':
      return say('given a new home: moved{whence}{where}', { whence, where })
    case 'return':
      return say('put back{whence}{where}', { whence, where })
    case 'correct':
      return wholeDelta === 0
        ? say('set right')
        : say('{copies} {wholeDeltaCase, select, yes {more} other {fewer}}', { copies, wholeDeltaCase: wholeDelta > 0 })
    case 'use':
      return say('{copies} used in kits', { copies })
    case 'transfer':
      return toOwnerName
        ? say('passed{rest} to {toOwnerName}', {
            rest: fromOwnerName ? say(' from {fromOwnerName}', { fromOwnerName }) : '',
            toOwnerName,
          })
        : say('left the larder')
    case 'merge':
      return wholeDelta > 0 ? say('{copies} entered as a double counted here', { copies }) : say('counted with its double')
    case 'undo':
      return wholeDelta < 0 ? say('taken back') : say('brought back{where}', { where })
    default:
      return kind
  }
}

export const dayOf = (at: Date): string => formatDate(at.toISOString().slice(0, 10))

/** "140 × 98 stitches", or "8 × 6 in as ruled, about 112 × 84 stitches". */
export function sizeWords(design: Pick<Design, 'size' | 'advised'>, unit: LengthUnit): string {
  const { size } = design
  if (size.kind === 'unknown') return say('size not known')
  const stitches = stitchSize(design)
  const said = stitches && inStitches(stitches)
  if (size.kind === 'stitches') return said as string
  return said ? say('{ruled}, about {said}', { ruled: ruled(size, unit), said }) : ruled(size, unit)
}

const inStitches = ({ width, height }: StitchSize): string =>
  say('{round} × {round2} stitches', { round: Math.round(width), round2: Math.round(height) })
const ruled = (size: Extract<DesignSize, { kind: 'measured' }>, unit: LengthUnit): string =>
  say('{size} as ruled', { size: formatClothSize(size, unit) })

/** "3 of its 4 parts are here"; null for a chart that is whole in itself. */
export function partsSentence({ partsHeld, partsNeeded }: { partsHeld: number; partsNeeded: number }): string | null {
  if (partsNeeded === 1 && partsHeld === 1) return null
  if (partsHeld >= partsNeeded) return say('All of its {partsNeeded} parts are here.', { partsNeeded })
  const missing = partsNeeded - partsHeld
  const here = partsHeld === 0 ? say('None') : String(partsHeld)
  const verb = partsHeld === 1 ? 'is' : 'are'
  return partsNeeded === 1
    ? say('It is not here yet.')
    : say('{here} of its {partsNeeded} parts {verb} here; {missing, plural, one {one is} other {# are}} still to come.', {
        here,
        partsNeeded,
        verb,
        missing,
      })
}
