import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import { type Drum, roundOfUm } from '#lib/cloth/drum-strip'
import { findFinishing, type Margins, marginsFor } from '#lib/cloth/margins'
import { type Motifs, oneMotif } from '#lib/cloth/motifs'
import type { ClothChoices } from '#lib/coverage/design-cloth'
import { type LengthUnit, parseClothLength } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'
import { parseWholeNumber } from '#lib/quantity/number'
import type { Settings } from '#lib/settings/settings'

export const marginSides = () =>
  [
    ['left', 'leftUm', say('Margin left')],
    ['right', 'rightUm', say('Margin right')],
    ['top', 'topUm', say('Margin above')],
    ['bottom', 'bottomUm', say('Margin below')],
  ] as const

const widestMarginUm = 500_000
const widestDrumUm = 3_000_000
const mostMotifs = 100
const mostGap = 2_000

/** What the page's address asks, read; `said` is what stands in its boxes, `wrong` a sentence for each that did not read. */
export type ClothAddress = {
  /** Once round and how high; null where not both are given. */
  drum: Drum | null
  choices: ClothChoices
  finishing: string
  listId: string | null
  hasOwnMargins: boolean
  said: Record<string, string>
  wrong: string[]
}

const names = [
  'finishing',
  'over',
  'count',
  'left',
  'right',
  'top',
  'bottom',
  'across',
  'down',
  'gap',
  'piece',
  'list',
  'drumRound',
  'drumAcross',
  'drumHigh',
]

export function readClothAddress(search: Record<string, string | string[] | undefined>, settings: Settings): ClothAddress {
  const said: Record<string, string> = {}
  for (const name of names) {
    const value = search[name]
    const text = (Array.isArray(value) ? value[0] : value)?.trim().slice(0, 100)
    if (text) said[name] = text
  }
  const wrong: string[] = []
  const finishing = findFinishing(settings, said.finishing ?? settings.finishing)
  if (said.finishing && !finishing)
    wrong.push(
      say('“{finishing}” is no way of finishing here; {finishing2} stands.', {
        finishing: said.finishing,
        finishing2: settings.finishing,
      }),
    )
  const name = finishing?.name ?? settings.finishing
  const margins: Margins = { ...marginsFor(settings, name) }
  for (const [field, side, label] of marginSides()) {
    const text = said[field]
    if (text === undefined) continue
    const um = readLength(text, settings.lengthUnit)
    if (um === null)
      wrong.push(
        say('{label}: “{text}” is no width; {margins} stands.', {
          label,
          text,
          margins: formatClothLength(margins[side], settings.lengthUnit),
        }),
      )
    else margins[side] = um
  }
  const count = said.count === undefined ? null : parseCount(said.count)
  if (said.count !== undefined && !count)
    wrong.push(say('“{count}” is no count. Write 36, 34 x 31 or 110 per 10 cm.', { count: said.count }))
  return {
    choices: {
      margins,
      over: said.over === '1' ? 1 : said.over === '2' ? 2 : null,
      motifs: readMotifs(said, wrong),
      count,
      pieceId: said.piece ?? null,
    },
    drum: readDrum(said, settings.lengthUnit, wrong),
    finishing: name,
    listId: said.list ?? null,
    hasOwnMargins: marginSides().some(([field]) => said[field] !== undefined),
    said,
    wrong,
  }
}

/** A drum by what it measures round or across, and its height. */
function readDrum(said: Record<string, string>, unit: LengthUnit, wrong: string[]): Drum | null {
  const read = (field: 'drumRound' | 'drumAcross' | 'drumHigh', what: string): number | null => {
    const text = said[field]
    if (text === undefined) return null
    const um = parseClothLength(text, unit)
    if (um !== null && um > 0 && um <= widestDrumUm) return um
    wrong.push(say('“{text}” does not read as what the drum measures {what}.', { text, what }))
    return null
  }
  const roundUm = read('drumRound', say('once round'))
  const acrossUm = read('drumAcross', 'across')
  const heightUm = read('drumHigh', say('in height'))
  const aroundUm = roundUm ?? (acrossUm === null ? null : roundOfUm(acrossUm))
  return aroundUm === null || heightUm === null ? null : { roundUm: aroundUm, heightUm }
}

function readLength(text: string, unit: LengthUnit): number | null {
  const um = parseClothLength(text, unit)
  return um !== null && um <= widestMarginUm ? um : null
}

function readMotifs(said: Record<string, string>, wrong: string[]): Motifs {
  const read = (field: 'across' | 'down' | 'gap', least: number, most: number, otherwise: number, what: string) => {
    const text = said[field]
    if (text === undefined) return otherwise
    const value = parseWholeNumber(text)
    if (value !== null && value >= least && value <= most) return value
    wrong.push(say('“{text}” is no number of {what}; write {least} to {most, number}.', { text, what, least, most }))
    return otherwise
  }
  return {
    across: read('across', 1, mostMotifs, oneMotif.across, say('motifs across')),
    down: read('down', 1, mostMotifs, oneMotif.down, say('motifs down')),
    gapThreads: read('gap', 0, mostGap, oneMotif.gapThreads, say('threads between motifs')),
  }
}

/** The page with some choices changed; an empty one is taken off. */
export function clothHref(designId: string, said: Record<string, string>, changed: Record<string, string> = {}): string {
  const query = new URLSearchParams(Object.entries({ ...said, ...changed }).filter(([, value]) => value !== '')).toString()
  return `/designs/${designId}/cloth${query === '' ? '' : `?${query}`}`
}
