import { ok, type Result, refused } from '#lib/result'

/**
 * The version of the format that is written. Raise it whenever `archiveTables` changes, and add to `upgrades` what makes rows of the version
 * before into rows of the new one: an archive is read however old it is.
 */
export const archiveVersion = 3

type RawRow = Record<string, unknown>

/** How an archive of one version is read as one of the next. */
export type Upgrade = {
  /** A row anew, by table; null drops it. A table left out keeps its rows as they are. */
  rows?: Readonly<Record<string, (row: RawRow) => RawRow | null>>
  /** Tables the older version had not: they are read as empty. */
  tablesAdded?: readonly string[]
}

/** By the version an upgrade leads from. */
const upgrades: Readonly<Record<number, Upgrade>> = {
  // There was no log: what a project's totals say was done before it, and its finishing takes what the settings say.
  1: {
    rows: { Project: (row) => ({ ...row, finishingWeeks: null }) },
    tablesAdded: ['WorkEntry', 'WorkTimer', 'TimeAway', 'RotationTurn'],
  },
  // Nobody had said how much a project is wished for, nor what day it is for; nothing was bought by a list.
  2: {
    rows: {
      Project: (row) => ({
        ...row,
        ...{ stars: null, occasionKey: null, frameWidthUm: null, frameHeightUm: null, otherCostMinor: null },
      }),
    },
    tablesAdded: ['Occasion', 'StitchAlongPart', 'ThreadOffer', 'BuyList', 'BuyListFor', 'BuyListLine'],
  },
}

/** Made by a later Chart Larder. */
export type VersionRefused = { kind: 'archive-newer'; version: number; readable: number }

export type VersionReader = {
  /** A line’s value as a row of the present format, still to be checked; undefined for a row it has no more. */
  read: (table: string, raw: unknown) => unknown
  /** Whether archives of this version had the table. */
  has: (table: string) => boolean
}

/**
 * How to read an archive of some version as one of this.
 *
 * @param known  the version written here and the upgrades up to it: handed in by tests
 */
export function readerOf(
  version: number,
  known: { version: number; upgrades: Readonly<Record<number, Upgrade>> } = { version: archiveVersion, upgrades },
): Result<VersionReader, VersionRefused> {
  if (version > known.version) return refused({ kind: 'archive-newer', version, readable: known.version })
  const steps = Array.from({ length: known.version - version }, (_, at) => known.upgrades[version + at] ?? {})
  return ok({
    read(table, raw) {
      if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) return raw
      let row: RawRow | null = raw as RawRow
      for (const { rows } of steps) {
        row = rows?.[table] ? rows[table](row) : row
        if (row === null) return undefined
      }
      return row
    },
    has: (table) => !steps.some(({ tablesAdded }) => tablesAdded?.includes(table)),
  })
}
