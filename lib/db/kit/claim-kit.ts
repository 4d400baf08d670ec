import 'server-only'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { type ProjectEdit, type ProjectSnapshot, readProject, writeProject } from '../project/project-row'
import type { Write } from '../write-gate'
import type { KitItemRefusal } from './kit-item-refusal'

/** May its kits still be changed? */
const isOpen = (status: ProjectStatus): boolean =>
  status === 'wanted' || (openStatuses as readonly ProjectStatus[]).includes(status)

/** The project whose kits are changed, claimed for this write: its version goes up by one. */
export async function claimKit(
  writing: Write,
  edit: ProjectEdit,
  change: { kitPriceMinor?: number | null } = {},
): Promise<Result<ProjectSnapshot, Extract<KitItemRefusal, { kind: 'no-such-project' | 'changed-meanwhile' | 'kit-closed' }>>> {
  const read = await readProject(writing.tx, edit)
  if (!read.ok) return read
  if (!isOpen(read.value.status)) return refused({ kind: 'kit-closed' })
  const written = await writeProject(writing, read.value, change)
  return written.ok ? ok(read.value) : written
}

/** Refused while bags are packed by the list as it is. */
export async function refusePacked(
  { tx }: Pick<Write, 'tx'>,
  projectId: string,
): Promise<Result<null, Extract<KitItemRefusal, { kind: 'bags-packed' }>>> {
  const bags = await tx.kitBag.count({ where: { projectId, NOT: { status: 'open' } } })
  return bags > 0 ? refused({ kind: 'bags-packed', bags }) : ok(null)
}

/** Refused when the stock is not there, or somebody else's. */
export async function checkNotion(
  { tx }: Pick<Write, 'tx'>,
  { notionId, ownerId }: { notionId: string | null; ownerId: string },
): Promise<Result<null, Extract<KitItemRefusal, { kind: 'no-such-notion' | 'other-owner' }>>> {
  if (notionId === null) return ok(null)
  const notion = await tx.notion.findFirst({ where: { id: notionId, goneAt: null }, select: { ownerId: true } })
  if (!notion) return refused({ kind: 'no-such-notion', notionId })
  return notion.ownerId === ownerId ? ok(null) : refused({ kind: 'other-owner' })
}
