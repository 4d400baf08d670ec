import { archiveTables } from './tables'

/** Photos have names of their own making: an id, and `-thumb` for the small one beside it. */
const photoShape = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}(?:-thumb)?\.webp$/
/** A kept file’s name in the data folder: an id and the ending of its kind. */
const fileShape = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\.(?:pdf|jpg|jpeg|png|webp)$/
const csvShape = /^[a-z]+\.csv$/

export const manifestName = 'manifest.json'
export const readmeName = 'readme.txt'

/** The folders of a data folder that an archive has files from. */
export const keptFolders = ['photos', 'files'] as const
export type KeptFolder = (typeof keptFolders)[number]

export type ArchivePart =
  | { kind: 'manifest' }
  | { kind: 'readme' }
  | { kind: 'table'; table: string }
  /** For people and spreadsheets; not read when a collection is brought back. */
  | { kind: 'csv' }
  | { kind: 'upload'; folder: KeptFolder; name: string }

export const tablePart = (table: string): string => `tables/${table}.jsonl`
export const csvPart = (noun: string): string => `csv/${noun}.csv`
export const uploadPart = (folder: KeptFolder, name: string): string => `uploads/${folder}/${name}`

const tableOfPart = new Map(archiveTables.map(({ name }) => [tablePart(name), name]))

/** Whether a name is one that files of this folder are given here: never a path. */
export const isUploadName = (folder: KeptFolder, name: string): boolean =>
  (folder === 'photos' ? photoShape : fileShape).test(name)

/**
 * What a name inside the ZIP stands for; null for any that no archive has. Names are taken from this list and from narrow shapes only, so
 * that one with `..`, a drive, a slash too many or an odd letter leads nowhere.
 */
export function findPart(name: string): ArchivePart | null {
  if (name === manifestName) return { kind: 'manifest' }
  if (name === readmeName) return { kind: 'readme' }
  const table = tableOfPart.get(name)
  if (table !== undefined) return { kind: 'table', table }
  const [top, second, third, ...rest] = name.split('/')
  if (rest.length > 0) return null
  if (top === 'csv' && third === undefined && csvShape.test(second ?? '')) return { kind: 'csv' }
  const folder = keptFolders.find((known) => known === second)
  if (top === 'uploads' && folder && third !== undefined && isUploadName(folder, third))
    return { kind: 'upload', folder, name: third }
  return null
}

/** The parts that go with a name a row has for a file: of a photo also the small one. */
export function uploadsOf(folder: KeptFolder, name: string): string[] {
  const isLarge = folder === 'photos' && isUploadName(folder, name) && !name.endsWith('-thumb.webp')
  return [name, ...(isLarge ? [name.replace(/\.webp$/, '-thumb.webp')] : [])].map((each) => uploadPart(folder, each))
}
