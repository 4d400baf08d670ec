import 'server-only'
import { uploadPart } from '#lib/archive/part-name'
import { type BackupHolds, heldNouns } from '#lib/backup/check'
import { database } from '../client'
import { readRevision } from '../read-revision'
import { type BackupListed, findBackup, findBackupFile, readManifest } from './list-backups'
import { countUploads, listUploads } from './list-uploads'

/** A backup held against the collection that is there: what would come, and what would go. */
export type RestoreOutlook = {
  backup: BackupListed
  held: BackupHolds
  present: BackupHolds
  /** The collection here has this backup in its past: so many writes and lines of the journal came since. Null: it has another past. */
  since: { writes: number; movements: number; lastAt: Date | null } | null
}

/** @returns null when there is none of that name, or it does not open */
export async function readRestoreOutlook(name: string): Promise<RestoreOutlook | null> {
  const [backup, found] = await Promise.all([findBackup(name), findBackupFile(name)])
  const manifest = found && (await readManifest(found.file).catch(() => null))
  if (!backup || !manifest) return null
  const { prisma } = database()
  const revision = await readRevision()
  const isOfThisPast =
    manifest.revision <= revision &&
    manifest.lastChangeId !== null &&
    (await prisma.change.findUnique({ where: { id: manifest.lastChangeId } })) !== null
  const after = { where: { revision: { gt: manifest.revision } } }
  return {
    backup,
    held: Object.fromEntries(heldNouns.map((noun) => [noun, manifest.holds[noun] ?? 0])) as BackupHolds,
    present: await readPresent(),
    since: isOfThisPast
      ? {
          writes: revision - manifest.revision,
          movements: await prisma.movement.count(after),
          lastAt: (await prisma.movement.findFirst({ ...after, orderBy: { id: 'desc' }, select: { at: true } }))?.at ?? null,
        }
      : null,
  }
}

/** What the collection here holds, by the same words as a backup. */
async function readPresent(): Promise<BackupHolds> {
  const { prisma } = database()
  const there = { where: { goneAt: null } }
  const [charts, threads, cloth, notions, places, projects, movements, uploads] = await Promise.all([
    prisma.chart.count(there),
    prisma.thread.count(there),
    prisma.clothPiece.count(there),
    prisma.notion.count(there),
    prisma.place.count(there),
    prisma.project.count(there),
    prisma.movement.count(),
    listUploads(),
  ])
  const parts = uploads.map(({ folder, name }) => uploadPart(folder, name))
  return { charts, threads, cloth, notions, places, projects, movements, ...countUploads(parts) }
}
