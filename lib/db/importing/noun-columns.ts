import 'server-only'
import type { ImportedNoun, RowOf } from '#lib/importing/snapshot'
import { sizeKeyOf } from '#lib/notion/size'
import { textKey } from '#lib/quantity/text-key'
import { type BulkRow, timestamp } from '../bulk-insert'

/** The table of each noun an import writes. */
export const tableOf: Record<ImportedNoun, string> = {
  owner: 'Owner',
  place: 'Place',
  maker: 'Maker',
  line: 'ThreadLine',
  thread: 'Thread',
  standIn: 'StandIn',
  batch: 'Batch',
  designer: 'Designer',
  theme: 'Theme',
  chart: 'Chart',
  design: 'Design',
  list: 'ThreadList',
  cloth: 'ClothPiece',
  project: 'Project',
  notion: 'Notion',
}

/** Nouns whose rows carry a version that every writer raises. */
export const versioned: ReadonlySet<ImportedNoun> = new Set<ImportedNoun>([
  'owner',
  'place',
  'maker',
  'line',
  'thread',
  'batch',
  'chart',
  'design',
  'list',
  'cloth',
  'project',
  'notion',
])

type Values<N extends ImportedNoun> = Partial<RowOf[N]>

const keyed = <N extends ImportedNoun>(values: Values<N>, name: string, key: string): BulkRow => {
  const text = (values as Record<string, unknown>)[name]
  return text === undefined ? {} : { [key]: text === null ? null : textKey(String(text)) }
}

/** A count or a colour is one value to the importer and several columns to the database. */
function spread(values: Record<string, unknown>, at: Date): BulkRow {
  const columns: BulkRow = {}
  for (const [name, value] of Object.entries(values)) {
    if (value === undefined) continue
    const count = value as { threads: number; perUm: number } | null
    const lab = value as { L: number; a: number; b: number } | null
    switch (name) {
      case 'lab':
        Object.assign(columns, { labL: lab?.L ?? null, labA: lab?.a ?? null, labB: lab?.b ?? null })
        break
      case 'ends':
        Object.assign(columns, { endsThreads: count?.threads ?? null, endsPerUm: count?.perUm ?? null })
        break
      case 'picks':
        Object.assign(columns, { picksThreads: count?.threads ?? null, picksPerUm: count?.perUm ?? null })
        break
      case 'advisedCount':
        Object.assign(columns, { advisedThreads: count?.threads ?? null, advisedPerUm: count?.perUm ?? null })
        break
      case 'isGone':
        columns.goneAt = value ? timestamp(at) : null
        break
      // A project has it, or it has not: nothing a file says.
      case 'isInUse':
        break
      // Kept in tables of their own.
      case 'designerIds':
      case 'themeIds':
      case 'keyLines':
        break
      default:
        columns[name] = value as BulkRow[string]
    }
  }
  return columns
}

const isSet = (value: unknown): boolean => value !== undefined && value !== null

/**
 * The columns that say what an importer's row, or the changed values of one, says.
 *
 * @param known  the whole row as it will be, for columns that hang on two values
 */
export function columnsOf<N extends ImportedNoun>(noun: N, values: Values<N>, known: RowOf[N], at: Date): BulkRow {
  const columns = spread(values as Record<string, unknown>, at)
  switch (noun) {
    case 'owner':
    case 'maker':
    case 'line':
    case 'designer':
    case 'theme':
    case 'list':
      return { ...columns, ...keyed(values, 'name', 'nameKey') }
    case 'place':
    case 'cloth':
      return { ...columns, ...keyed(values, 'label', 'labelKey'), ...(noun === 'cloth' ? outSince(values, known, at) : {}) }
    case 'chart':
      return { ...columns, ...keyed(values, 'title', 'titleKey'), ...outSince(values, known, at) }
    case 'design':
      return { ...columns, ...keyed(values, 'title', 'titleKey') }
    case 'notion':
      return { ...columns, ...sizeKey(values, known as RowOf['notion']), ...outSince(values, known, at) }
    case 'batch':
      return { ...columns, ...outSince(values, known, at) }
    default:
      return columns
  }
}

/** A size is ordered by a key of its own, which hangs on the kind too. */
const sizeKey = (values: object, known: RowOf['notion']): BulkRow => ('size' in values ? { sizeKey: sizeKeyOf(known) } : {})

/** A thing that is now somewhere else than home is out since this import, and one that is home is not. */
function outSince(values: object, known: object, at: Date): BulkRow {
  if (!('currentPlaceId' in values) && !('homePlaceId' in values)) return {}
  const { homePlaceId, currentPlaceId } = known as { homePlaceId: string | null; currentPlaceId: string | null }
  const isOut = isSet(homePlaceId) && isSet(currentPlaceId) && homePlaceId !== currentPlaceId
  return { outSince: isOut ? timestamp(at) : null }
}
