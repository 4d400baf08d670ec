import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { RowFault } from '#lib/archive/read-row'
import type { ArchiveRefused } from '#lib/archive/refusal'
import type { PeopleSheet, TooManyRows } from '#lib/db/archive/collection-workbook'
import type { ArchiveProgress } from '#lib/db/archive/write-archive'
import { counted, listed, plural } from './amounts'

/** Tables by what a person calls their rows; the others are bookkeeping. */
const nounOfTable = (): Record<string, string> => ({
  Chart: 'chart',
  Design: 'design',
  ThreadList: say('thread list'),
  Thread: 'thread',
  Batch: 'batch',
  ClothPiece: say('piece of cloth'),
  Place: 'place',
  Notion: 'notion',
  Project: 'project',
  Loan: 'loan',
  Movement: 'movement',
  ImportBatch: 'import',
})

/** "500 charts, 1,204 movements and others": what rows there are, in a few words. */
export function holdingWords(tables: readonly { table: string; count: number }[]): string {
  const known = Object.keys(nounOfTable()).flatMap((table) => tables.find((row) => row.table === table) ?? [])
  const said = known.map(({ table, count }) => {
    const noun = nounOfTable()[table] as string
    return noun === 'piece of cloth' && count !== 1 ? say('{count, number} pieces of cloth', { count }) : counted(count, noun)
  })
  const others = tables.filter(({ table }) => !(table in nounOfTable())).reduce((sum, { count }) => sum + count, 0)
  if (others > 0) said.push(known.length > 0 ? counted(others, 'other row') : counted(others, 'row'))
  return listed(said) || say('nothing')
}

/** "4.2 MB", "0.3 kB". */
export function bytesWords(bytes: number): string {
  const [unit, size] = bytes >= 1e9 ? ['GB', 1e9] : bytes >= 1e6 ? ['MB', 1e6] : ['kB', 1e3]
  return `${numberText(bytes / Number(size), { maximumFractionDigits: 1 })} ${unit}`
}

export const stepWords: Record<ArchiveProgress['step'], string> = sayings({
  rows: 'The record, row by row',
  sheets: 'The sheets',
  files: 'Photos and files',
})

function faultWords(fault: RowFault): string {
  switch (fault.kind) {
    case 'not-a-row':
      return say('is not a row')
    case 'column-missing':
      return say('has no {column}', { column: fault.column })
    case 'column-unknown':
      return say('has a column {column} that this version does not know', { column: fault.column })
    case 'cell-not-right':
      return say('has something in {column} that cannot stand there', { column: fault.column })
  }
}

const altered = () => say('It was altered, or damaged on the way. Take a fresh copy of it, or an earlier archive.')

/** Why an archive is not brought back, and what to do about it. */
export function describeArchiveRefusal(refusal: ArchiveRefused): string {
  switch (refusal.kind) {
    case 'not-an-archive':
      return say(
        'That is not an archive of Chart Larder: choose a ZIP that was taken out here, as it was downloaded. Spreadsheets go through Bring in.',
      )
    case 'archive-torn':
      return say('The file is cut off or broken, perhaps because a download or copy did not finish. Fetch or copy it again.')
    case 'archive-newer':
      return say(
        'The archive is in version {version} of its format, and this Chart Larder reads up to version {readable}. Update Chart Larder, then bring it back.',
        { version: refusal.version, readable: refusal.readable },
      )
    case 'part-unknown':
      return say('The archive has “{path}” in it, which no archive has there. {altered}', {
        path: refusal.path,
        altered: altered(),
      })
    case 'part-missing':
      return say('“{path}” is missing from the archive. {altered}', { path: refusal.path, altered: altered() })
    case 'part-altered':
      return say('“{path}” in the archive is not as it was written. {altered}', { path: refusal.path, altered: altered() })
    case 'archive-too-large':
      return refusal.path === null
        ? say('The archive is larger than any that is taken out here.')
        : say('“{path}” in the archive would unpack to far more than it can rightly be, so it is not unpacked.', {
            path: refusal.path,
          })
    case 'no-room':
      return say('Its photos and files need {bytes}, and the disk has {bytes2} free. Make room, then bring it back.', {
        bytes: bytesWords(refusal.wantsBytes),
        bytes2: bytesWords(refusal.freeBytes),
      })
    case 'row-not-read':
      return say('Line {line, number} of {table} in the archive {fault}. {altered}', {
        line: refusal.line,
        table: refusal.table,
        fault: faultWords(refusal.fault),
        altered: altered(),
      })
    case 'rows-do-not-fit':
      return say(
        'Rows of {table} in the archive do not hold together: one names something that is not there, stands twice, or has a figure that cannot be. {altered}',
        { table: refusal.table, altered: altered() },
      )
    case 'not-empty':
      return say(
        'There is a collection here already: {holding}. An archive is brought back whole, and only where there is nothing, so that no two collections are mixed.',
        { holding: holdingWords(refusal.held) },
      )
    case 'stopped':
      return say('Stopped.')
  }
}

/** What to do where there is something already. */
export const notEmptyAdvice = () =>
  say(
    'To have the archive’s collection instead: take this one out first, stop Chart Larder, start it with another, empty data folder (LARDER_DATA), and bring the archive back there. To add to what is here, bring the sheets of the archive in under Bring in.',
  )

export const tooManyWords = () => say('Another archive is being written or brought back. Wait until it is done, or stop it.')

export const missingWords = (count: number): string =>
  say(
    '{count, plural, one {# file} other {# files}} that the record names {count, plural, one {was} other {were}} not on the disk, and {count, plural, one {is} other {are}} not in it.',
    { count },
  )

export const rowsWords = (count: number): string => `${numberText(count)} ${count === 1 ? say('row') : plural('row')}`

export const sheetWords: Record<PeopleSheet, string> = sayings({
  threads: 'Threads',
  charts: 'Charts',
  cloth: 'Cloth',
  places: 'Places',
  notions: 'Notions',
  projects: 'Projects',
  finishes: 'Finishes',
})

export const tooManyRowsWords = ({ sheet, most }: TooManyRows): string =>
  say('{sheet} have more than {most, number} rows, too many for a workbook. The archive has them as CSV.', {
    sheet: sheetWords[sheet],
    most,
  })

export const diskFullWords = () => say('The disk is full. Make room, or remove archives that have been fetched, and begin again.')
