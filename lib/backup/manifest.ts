import { z } from 'zod'
import { heldNouns } from './check'

/** What the manifest says a backup is. */
export const backupFormat = 'chart-larder-backup'
/** Raised when what is in the ZIP changes; a database inside it that is older is brought up to date by its migrations. */
export const backupVersion = 1

export const manifestName = 'manifest.json'
export const databaseName = 'larder.db'
export const readmeName = 'readme.txt'
/** A manifest says some hundred letters of each part; beyond this it is none. */
export const mostManifestBytes = 256 * 1024 * 1024

/**
 * Why a backup was made: at its hour, because somebody asked, or of what stood there before another was restored.
 */
export const backupKinds = ['scheduled', 'asked', 'before-restore'] as const
export type BackupKind = (typeof backupKinds)[number]

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)

export const manifestSchema = z.object({
  format: z.literal(backupFormat),
  version: z.int().min(1),
  madeAt: z.iso.datetime(),
  kind: z.enum(backupKinds),
  /** Which engine the collection was kept in. The backup itself is a SQLite file either way. */
  engine: z.enum(['sqlite', 'postgresql']),
  /** How many writes the collection had seen, and the last change it knew: whether another has this one in its past. */
  revision: z.int().min(0),
  lastChangeId: z.string().nullable(),
  /** The newest migration of the database inside. */
  migration: z.string(),
  /** Rows of each table, all told. */
  counts: z.record(z.string(), z.int().min(0)),
  /** What it holds, as a person counts. */
  holds: z.partialRecord(z.enum(heldNouns), z.int().min(0)),
  /** Everything in the ZIP but this manifest and the readme. */
  parts: z.array(z.object({ name: z.string().min(1).max(300), bytes: z.int().min(0), sha256 })),
})

export type BackupManifest = z.infer<typeof manifestSchema>

/** Enough to tell a backup that a later Chart Larder made from a file that is none. */
export const manifestHeadSchema = z.looseObject({ format: z.literal(backupFormat), version: z.int().min(1) })

/** What goes into the ZIP as readme.txt. */
export const backupReadme = (madeAt: string): string => `A backup of a Chart Larder collection, made ${madeAt}.

larder.db      the whole collection, as an SQLite database
uploads/       photographs, covers, digital charts and receipts
manifest.json  what is in here, each part with its SHA-256

To restore it: in Chart Larder, Settings, Backups, "Bring in a backup from elsewhere"; or with Chart Larder stopped, in its folder,

  npm run restore -- <this file>

Either checks the file first and sets the collection that is there aside under a dated name.
`
