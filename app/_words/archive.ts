import { numberText } from '#language/figures'
import type { RowFault } from '#lib/archive/read-row'
import type { ArchiveRefused } from '#lib/archive/refusal'
import type { PeopleSheet, TooManyRows } from '#lib/db/archive/collection-workbook'
import type { ArchiveProgress } from '#lib/db/archive/write-archive'
import { counted, listed, plural } from './amounts'

/** Tables by what a person calls their rows; the others are bookkeeping. */
const nounOfTable: Record<string, string> = {
  Chart: 'chart',
  Design: 'design',
  ThreadList: 'thread list',
  Thread: 'thread',
  Batch: 'batch',
  ClothPiece: 'piece of cloth',
  Place: 'place',
  Notion: 'notion',
  Project: 'project',
  Loan: 'loan',
  Movement: 'movement',
  ImportBatch: 'import',
}

/** "500 charts, 1,204 movements and others": what rows there are, in a few words. */
export function holdingWords(tables: readonly { table: string; count: number }[]): string {
  const known = Object.keys(nounOfTable).flatMap((table) => tables.find((row) => row.table === table) ?? [])
  const said = known.map(({ table, count }) => {
    const noun = nounOfTable[table] as string
    return noun === 'piece of cloth' && count !== 1 ? `${numberText(count)} pieces of cloth` : counted(count, noun)
  })
  const others = tables.filter(({ table }) => !(table in nounOfTable)).reduce((sum, { count }) => sum + count, 0)
  if (others > 0) said.push(known.length > 0 ? counted(others, 'other row') : counted(others, 'row'))
  return listed(said) || 'nothing'
}

/** "4.2 MB", "0.3 kB". */
export function bytesWords(bytes: number): string {
  const [unit, size] = bytes >= 1e9 ? ['GB', 1e9] : bytes >= 1e6 ? ['MB', 1e6] : ['kB', 1e3]
  return `${numberText(bytes / Number(size), { maximumFractionDigits: 1 })} ${unit}`
}

export const stepWords: Record<ArchiveProgress['step'], string> = {
  rows: 'The record, row by row',
  sheets: 'The sheets',
  files: 'Photos and files',
}

function faultWords(fault: RowFault): string {
  switch (fault.kind) {
    case 'not-a-row':
      return 'is not a row'
    case 'column-missing':
      return `has no ${fault.column}`
    case 'column-unknown':
      return `has a column ${fault.column} that this version does not know`
    case 'cell-not-right':
      return `has something in ${fault.column} that cannot stand there`
  }
}

const altered = 'It was altered, or damaged on the way. Take a fresh copy of it, or an earlier archive.'

/** Why an archive is not brought back, and what to do about it. */
export function describeArchiveRefusal(refusal: ArchiveRefused): string {
  switch (refusal.kind) {
    case 'not-an-archive':
      return 'That is not an archive of Chart Larder: choose a ZIP that was taken out here, as it was downloaded. Spreadsheets go through Bring in.'
    case 'archive-torn':
      return 'The file is cut off or broken, perhaps because a download or copy did not finish. Fetch or copy it again.'
    case 'archive-newer':
      return `The archive is in version ${refusal.version} of its format, and this Chart Larder reads up to version ${refusal.readable}. Update Chart Larder, then bring it back.`
    case 'part-unknown':
      return `The archive has “${refusal.path}” in it, which no archive has there. ${altered}`
    case 'part-missing':
      return `“${refusal.path}” is missing from the archive. ${altered}`
    case 'part-altered':
      return `“${refusal.path}” in the archive is not as it was written. ${altered}`
    case 'archive-too-large':
      return refusal.path === null
        ? 'The archive is larger than any that is taken out here.'
        : `“${refusal.path}” in the archive would unpack to far more than it can rightly be, so it is not unpacked.`
    case 'no-room':
      return `Its photos and files need ${bytesWords(refusal.wantsBytes)}, and the disk has ${bytesWords(refusal.freeBytes)} free. Make room, then bring it back.`
    case 'row-not-read':
      return `Line ${numberText(refusal.line)} of ${refusal.table} in the archive ${faultWords(refusal.fault)}. ${altered}`
    case 'rows-do-not-fit':
      return `Rows of ${refusal.table} in the archive do not hold together: one names something that is not there, stands twice, or has a figure that cannot be. ${altered}`
    case 'not-empty':
      return `There is a collection here already: ${holdingWords(refusal.held)}. An archive is brought back whole, and only where there is nothing, so that no two collections are mixed.`
    case 'stopped':
      return 'Stopped.'
  }
}

/** What to do where there is something already. */
export const notEmptyAdvice =
  'To have the archive’s collection instead: take this one out first, stop Chart Larder, start it with another, empty data folder (LARDER_DATA), and bring the archive back there. To add to what is here, bring the sheets of the archive in under Bring in.'

export const tooManyWords = 'Another archive is being written or brought back. Wait until it is done, or stop it.'

export const missingWords = (count: number): string =>
  `${counted(count, 'file')} that the record names ${count === 1 ? 'was' : 'were'} not on the disk, and ${count === 1 ? 'is' : 'are'} not in it.`

export const rowsWords = (count: number): string => `${numberText(count)} ${count === 1 ? 'row' : plural('row')}`

export const sheetWords: Record<PeopleSheet, string> = {
  threads: 'Threads',
  charts: 'Charts',
  cloth: 'Cloth',
  places: 'Places',
  notions: 'Notions',
  projects: 'Projects',
  finishes: 'Finishes',
}

export const tooManyRowsWords = ({ sheet, most }: TooManyRows): string =>
  `${sheetWords[sheet]} have more than ${numberText(most)} rows, too many for a workbook. The archive has them as CSV.`

export const diskFullWords = 'The disk is full. Make room, or remove archives that have been fetched, and begin again.'
