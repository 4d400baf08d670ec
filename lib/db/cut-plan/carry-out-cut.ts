import 'server-only'
import type { CutRefusal } from '#lib/cloth/check-cut'
import { type ConfirmedPart, type ConfirmRefused, type CutYield, confirmCut } from '#lib/cloth/confirm-cut'
import { openStatuses, underWayStatuses } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import { addOffcuts, type OffcutInput } from '../cloth/add-offcuts'
import { journalCloth } from '../cloth/claim-cloth'
import type { ClothRefusal } from '../cloth/cloth-refusal'
import { readKeptCloth } from '../cloth/kept-cloth'
import { goneNow } from '../cloth/remove-cloth'
import { readProject, writeProject } from '../project/project-row'
import { promiseForProject } from '../project/promise-for-project'
import { getSettings } from '../settings/settings'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type ClaimPlanRefused, claimPlan } from './claim-cut-plan'
import type { KeptAsked } from './cut-plan-rows'
import { type CutPieceRefused, cutPieceColumns, projectsCutFor } from './keep-cut-plan'

/** A part as it came off the shears: measured, labelled, put somewhere (where its piece lived, when no place is given). */
export type CarriedPart = ConfirmedPart & { label: string | null; placeLabel: string | null }

export type CarryOut = {
  planId: string
  /** As the person saw it; left out, it is taken as it stands. */
  version?: number
  /** The pieces that were cut, each with what came of it. A piece of the plan that is not among them was not cut and is free again. */
  pieces: readonly { pieceId: string; parts: readonly CarriedPart[] }[]
  note: string | null
  who?: string | null
}

export type CarryOutRefused =
  | ClaimPlanRefused
  | { kind: 'not-in-plan'; pieceId: string }
  | CutPieceRefused
  | (CutRefusal & { pieceName: string })
  | { kind: 'no-such-part'; key: string }
  | Extract<ClothRefusal, { kind: 'label-taken' | 'kept-by-record' }>

/** What became of one piece: the new pieces by the key of their part, and what was lost. */
export type CarriedPiece = { pieceId: string; parts: { key: string; clothPieceId: string }[]; wasteUm2: number }

/**
 * Confirm that a kept plan was carried out: the pieces that were cut are gone, and each part is a new piece with its piece as parent,
 * measured just now. What was cut for a project is kept for it, and is its cloth where it had none or the piece that was cut. All of it
 * or nothing.
 */
export async function carryOutCut(input: CarryOut): Promise<Result<{ pieces: CarriedPiece[] }, CarryOutRefused>> {
  const settings = await getSettings()
  return write<{ pieces: CarriedPiece[] }, CarryOutRefused>(async (open) => {
    const claimed = await claimPlan(open, { ...input, status: 'cut' })
    if (!claimed.ok) return claimed
    const { asked, plan, planned, title } = claimed.value
    const projects = await readProjectsCutFor(open, asked)
    const carried: CarriedPiece[] = []
    /** The first part cut for each project, and the pieces that are gone. */
    const firstFor = new Map<string, string>()
    for (const [at, { pieceId, parts }] of input.pieces.entries()) {
      const layout = plan.layouts.find((one) => one.pieceId === pieceId)
      const size = planned.get(pieceId)
      const isTwice = input.pieces.findIndex((one) => one.pieceId === pieceId) !== at
      if (!layout || !size || isTwice) return refused({ kind: 'not-in-plan', pieceId })
      const piece = await openPiece(open, { pieceId, planId: input.planId, projectIds: projectsCutFor(layout.root, asked) })
      if (!piece.ok) return piece
      const { pieceName, ...held } = piece.value
      const cut = confirmCut(layout, { held, planned: size, parts })
      if (!cut.ok) return refused(inPiece(cut.error, pieceName))

      await open.tx.clothPiece.update({ where: { id: pieceId }, data: { ...goneNow(open.at), version: { increment: 1 } } })
      await journalCloth(open, {
        ...{ kind: 'cut', clothPieceId: pieceId, wholeDelta: -1, cutPlanId: input.planId, fromPlaceId: held.currentPlaceId },
        ...{ who: input.who ?? null, reason: [title, input.note].filter(Boolean).join('; ') },
      })
      const projectOf = (part: CutYield) => projectFor(part, { asked, projects, ownerId: held.ownerId })
      const added = await addOffcuts(
        open,
        cut.value.parts.map((one) => partInput(one, projectOf(one.planned), asked)),
        {
          ...{ parentId: pieceId, isSquared: held.isSquared, homePlaceId: held.homePlaceId ?? held.currentPlaceId },
          ...{ fromPlaceId: held.currentPlaceId, projectId: null, cutPlanId: input.planId, who: input.who ?? null },
        },
      )
      if (!added.ok) return added
      const made = cut.value.parts.map((one, part) => ({
        key: one.planned.key,
        clothPieceId: added.value.offcutIds[part] as string,
        projectId: projectOf(one.planned),
      }))
      for (const { projectId, clothPieceId } of made)
        if (projectId !== null && !firstFor.has(projectId)) firstFor.set(projectId, clothPieceId)
      carried.push({
        pieceId,
        parts: made.map(({ key, clothPieceId }) => ({ key, clothPieceId })),
        wasteUm2: cut.value.wasteUm2,
      })
    }
    if (carried.length === 0) return refused({ kind: 'nothing-cut', pieceName: '' })
    const goneIds = new Set(carried.map(({ pieceId }) => pieceId))
    const given = await giveCloth(open, { goneIds, firstFor, settings, who: input.who ?? null })
    return given.ok ? ok({ pieces: carried }) : given
  })
}

/** A piece as it stands, when it may still be cut for this plan. */
async function openPiece(
  { tx }: Write,
  { pieceId, planId, projectIds }: { pieceId: string; planId: string; projectIds: ReadonlySet<string> },
) {
  const row = await tx.clothPiece.findUniqueOrThrow({
    where: { id: pieceId },
    select: { ...cutPieceColumns, isSquared: true, homePlaceId: true, currentPlaceId: true },
  })
  const { label, name, goneAt, ...piece } = row
  const pieceName = label ?? name
  if (goneAt) return refused({ kind: 'piece-gone' as const, pieceName })
  const kept = (await readKeptCloth(tx, [pieceId])).get(pieceId)
  const others = (kept?.projects ?? []).filter(({ projectId }) => !projectIds.has(projectId))
  if (others.length > 0) return refused({ kind: 'piece-reserved' as const, pieceName, titles: others.map(({ title }) => title) })
  const planned = kept?.plans.find((one) => one.planId !== planId)
  if (planned) return refused({ kind: 'piece-planned' as const, pieceName, title: planned.title })
  return ok({ ...piece, pieceName })
}

function inPiece(refusal: ConfirmRefused, pieceName: string): CarryOutRefused {
  switch (refusal.kind) {
    case 'size-changed':
      return { kind: 'piece-changed', pieceName, was: refusal.was, is: refusal.is }
    case 'no-such-part':
      return refusal
    default:
      return { ...refusal, pieceName }
  }
}

/** The projects the plan cuts for that are still under way or wished for, with their owners. */
async function readProjectsCutFor({ tx }: Write, { wishes }: KeptAsked): Promise<Map<string, string>> {
  const rows = await tx.project.findMany({
    where: {
      id: { in: wishes.flatMap(({ projectId }) => projectId ?? []) },
      goneAt: null,
      status: { in: [...underWayStatuses] },
    },
    select: { id: true, ownerId: true },
  })
  return new Map(rows.map(({ id, ownerId }) => [id, ownerId]))
}

/** The project a part is cut for, when it can be its cloth. */
function projectFor(
  part: CutYield,
  { asked, projects, ownerId }: { asked: KeptAsked; projects: ReadonlyMap<string, string>; ownerId: string },
): string | null {
  if (part.kind !== 'wanted') return null
  const projectId = asked.wishes.find(({ id }) => id === part.wishId)?.projectId ?? null
  return projectId !== null && projects.get(projectId) === ownerId ? projectId : null
}

function partInput(
  { part, planned }: { part: CarriedPart; planned: CutYield },
  projectId: string | null,
  { wishes }: KeptAsked,
): OffcutInput {
  const { widthUm, heightUm, label, placeLabel } = part
  const title = planned.kind === 'wanted' ? wishes.find(({ id }) => id === planned.wishId)?.title : undefined
  const note = projectId === null && title ? `cut for ${title}` : null
  return { widthUm, heightUm, label, placeLabel, keptForProjectId: projectId, note }
}

/**
 * Projects worked on a piece that is gone, or cut for and without cloth, get the first part that was cut for them. One that is planned
 * has its thread chosen anew, for the need hangs on the cloth.
 */
async function giveCloth(
  open: Write,
  input: { goneIds: ReadonlySet<string>; firstFor: ReadonlyMap<string, string>; settings: Settings; who: string | null },
): Promise<Result<null, ChangedMeanwhile>> {
  const { goneIds, firstFor, settings, who } = input
  const rows = await open.tx.project.findMany({
    where: {
      goneAt: null,
      OR: [
        { clothPieceId: { in: [...goneIds] }, status: { in: [...openStatuses, 'wanted'] } },
        { clothPieceId: null, id: { in: [...firstFor.keys()] } },
      ],
    },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  for (const { id: projectId } of rows) {
    const read = await readProject(open.tx, { projectId })
    // It was found in this same transaction.
    if (!read.ok) throw new Error(`carryOutCut: project ${projectId} is gone`)
    const project = read.value
    const clothPieceId = firstFor.get(projectId) ?? null
    const written = await writeProject(open, project, { clothPieceId })
    if (!written.ok) return written
    if (project.status !== 'planned') continue
    const promised = await promiseForProject(open, { ...project, clothPieceId }, settings, who)
    if (!promised.ok) return promised
  }
  return ok(null)
}
