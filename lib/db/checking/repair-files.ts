import 'server-only'
import { mkdir, readdir, rename, rm } from 'node:fs/promises'
import path from 'node:path'
import { uploadPart, uploadsOf } from '#lib/archive/part-name'
import type { Fault } from '#lib/checking/fault'
import { avifThumbName } from '#lib/photo/photo-name'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { findBackupFile, listBackups } from '../backup/list-backups'
import { openBackup } from '../backup/open-backup'
import { dataFolder } from '../data-folder'
import { newId } from '../new-id'
import { findPhoto, keepThumb } from '../photo/photo-files'
import { forgetLook } from '../photo/photo-looks'
import { preparePhoto } from '../photo/prepare-photo'
import type { Write } from '../write-gate'
import { setAside } from './set-aside'

type Missing = Extract<Fault, { kind: 'file-missing' }>

const noted = (note: string | null, file: string, at: Date): string =>
  `${note ? `${note}\n` : ''}${calendarDay(at)}: the file ${file} was not there, and is named no more.`

/** A row no longer names the file that is not there; its note says which that was. A kept file is taken off its thing. */
export async function clearFile({ tx, touch, at }: Write, { table, about, file }: Missing): Promise<void> {
  await tx.photoLook.deleteMany({ where: { file } })
  const raised = { version: { increment: 1 } }
  const select = { note: true } as const
  const where = { id: about.id }
  switch (table) {
    case 'ClothPiece': {
      const { note } = await tx.clothPiece.findUniqueOrThrow({ where, select })
      await tx.clothPiece.updateMany({ where, data: { photoFile: null, note: noted(note, file, at), ...raised } })
      return touch('cloth', about.id)
    }
    case 'Chart': {
      const { note } = await tx.chart.findUniqueOrThrow({ where, select })
      await tx.chart.updateMany({ where, data: { coverFile: null, coverHash: null, note: noted(note, file, at), ...raised } })
      return touch('chart', about.id)
    }
    case 'Notion': {
      const { note } = await tx.notion.findUniqueOrThrow({ where, select })
      await tx.notion.updateMany({ where, data: { photoFile: null, note: noted(note, file, at), ...raised } })
      return touch('notion', about.id)
    }
    case 'Project': {
      const { note } = await tx.project.findUniqueOrThrow({ where, select })
      await tx.project.updateMany({ where, data: { photoFile: null, note: noted(note, file, at), ...raised } })
      return touch('project', about.id)
    }
    case 'WorkEntry': {
      const { note } = await tx.workEntry.findUniqueOrThrow({ where, select })
      await tx.workEntry.updateMany({ where, data: { photoFile: null, note: noted(note, file, at), ...raised } })
      return
    }
    case 'KeptFile':
      await tx.keptFile.updateMany({ where, data: { goneAt: at, ...raised } })
      return
    default:
      throw new RangeError(`clearFile: ${table}`)
  }
}

/** Lay a file back that the newest good backup has which has it at all, with what goes with it. */
export async function bringBack({ folder, file }: Missing): Promise<Result<{ backup: string }, { kind: 'in-no-backup' }>> {
  const backups = (await listBackups()).filter(({ check }) => check?.isGood)
  for (const { name } of backups) {
    const found = await findBackupFile(name)
    const opened = found && (await openBackup(found.file))
    if (!opened?.ok) continue
    const backup = opened.value
    try {
      const parts = new Set(backup.manifest.parts.map((part) => part.name))
      if (!parts.has(uploadPart(folder, file))) continue
      // The file itself last: while it is not there, the small one beside it is asked for by nobody.
      const wanted = uploadsOf(folder, file)
        .filter((part) => parts.has(part))
        .reverse()
      let isWhole = true
      for (const part of wanted) isWhole = isWhole && (await layOut(backup, part))
      if (isWhole) return ok({ backup: name })
    } finally {
      backup.close()
    }
  }
  return refused({ kind: 'in-no-backup' })
}

type OpenBackup = Extract<Awaited<ReturnType<typeof openBackup>>, { ok: true }>['value']

async function layOut(backup: OpenBackup, part: string): Promise<boolean> {
  const target = path.join(dataFolder(), part)
  const draft = `${target}.${newId()}.part`
  await mkdir(path.dirname(target), { recursive: true })
  try {
    if (!(await backup.readPart(part, draft))) return false
    await rename(draft, target)
    return true
  } finally {
    await rm(draft, { force: true })
  }
}

/** Draw the small one of a photo that has none. */
export async function drawThumb(file: string): Promise<Result<null, { kind: 'photo-unreadable' }>> {
  const bytes = await findPhoto(file)
  const prepared = bytes && (await preparePhoto(bytes))
  if (!prepared?.ok) return refused({ kind: 'photo-unreadable' })
  await keepThumb(file, prepared.value.thumb)
  return ok(null)
}

/** The files a fault of the disk is about: a photo goes with its small ones, what is staged with all that lies under its name. */
export async function setFaultAside(
  fault: Extract<Fault, { kind: 'file-unnamed' | 'half-written' | 'staged-old' }>,
  at: Date,
): Promise<void> {
  const { id } = fault.about
  const [, folder, name = ''] = id.split('/')
  if (fault.kind === 'staged-old') {
    const names = await readdir(path.join(dataFolder(), 'uploads', folder as string)).catch(() => [] as string[])
    const parts = names.filter((one) => one === name || one.startsWith(`${name}.`)).map((one) => `uploads/${folder}/${one}`)
    return setAside(parts, at)
  }
  if (folder !== 'photos') return setAside([id], at)
  const avif = avifThumbName(name)
  await setAside([...uploadsOf('photos', name), ...(avif === name ? [] : [uploadPart('photos', avif)])], at)
  await forgetLook(name)
}
