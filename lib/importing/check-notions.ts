import { type NotionKind, notionKinds } from '#lib/notion/notion'
import { textKey } from '#lib/quantity/text-key'
import { readPrice } from './check-charts'
import type { NotionDraft } from './drafts'
import type { RowReader } from './row-reader'

/** More than any drawer of beads holds. */
const most = 1_000_000

/** Words for each kind, one or many, as they stand in a cell or in a name; the first kind one of whose words is there is meant. */
const kindWords: readonly (readonly [NotionKind, string])[] = [
  ['needle minder', 'needle minder|needleminder|minder|magnet|needle keeper|nadelmagnet|aimant'],
  ['scissors', 'scissors|scissor|snips|snippers|shears|embroidery scissors|schere|scheren|ciseaux'],
  ['laying tool', 'laying tool|laying tools|trolley needle|stiletto|awl|ahle'],
  ['magnifier', 'magnifier|magnifiers|magnifying glass|magnifying lamp|loupe|lupe'],
  ['bag', 'bag|bags|project bag|project bags|pouch|pouches|tote|case|beutel|tasche|sac|pochette'],
  ['beads', 'bead|beads|seed beads|seed bead|bugle beads|perle|perlen|perles'],
  ['ribbon', 'ribbon|ribbons|ruban|rubans|schleifenband'],
  [
    'needle',
    'needle|needles|tapestry needle|tapestry needles|beading needle|nadel|nadeln|sticknadel|sticknadeln|aiguille|aiguilles',
  ],
  ['hoop', 'hoop|hoops|embroidery hoop|stickring|tambour|tambours'],
  [
    'frame',
    'frame|frames|scroll frame|slate frame|q frame|stretcher|stretchers|stretcher bar|stretcher bars|roller frame|rahmen|stickrahmen|metier',
  ],
  [
    'finding',
    'finding|findings|button|buttons|charm|charms|bell|bells|clasp|clasps|hanger|hangers|bellpull ends|knopf|knopfe|bouton|boutons',
  ],
  ['other', 'other|others|misc|miscellaneous|something else|sundries|sonstiges|autre|autres|divers'],
]

const kindOfWord: ReadonlyMap<string, NotionKind> = new Map([
  ...notionKinds.map((kind) => [kind, kind] as const),
  ...kindWords.flatMap(([kind, words]) => words.split('|').map((word) => [word, kind] as const)),
])

/** The kind a name gives away: `Bamboo hoop, 8 in` is a hoop, `Needle case` a bag; null when it does not. */
export function notionKindOf(name: string): NotionKind | null {
  const said = ` ${textKey(name)
    .replace(/[^\p{L}]+/gu, ' ')
    .trim()} `
  const found = kindWords.find(([, words]) => words.split('|').some((word) => said.includes(` ${word} `)))
  return found?.[0] ?? null
}

export function checkNotion(row: RowReader): NotionDraft {
  const name = row.required('name')
  return {
    owner: row.required('owner'),
    kind: readKind(row) ?? notionKindOf(name),
    name,
    size: row.text('size'),
    count: row.whole('count', { most }),
    packOf: row.whole('packOf', { least: 1, most }),
    minimum: row.whole('minimum', { most }),
    priceMinor: readPrice(row),
    place: row.text('place'),
    nowAt: row.text('nowAt'),
    note: row.note(),
  }
}

/** A word for a kind, or words one of which is: `Embroidery hoops`. */
function readKind(row: RowReader): NotionKind | null {
  const text = row.text('kind')
  if (text === null) return null
  const key = textKey(text).replace(/[-_]/g, ' ')
  return kindOfWord.get(key) ?? notionKindOf(text) ?? row.refuse('kind', 'unknown-word', text, notionKinds)
}
