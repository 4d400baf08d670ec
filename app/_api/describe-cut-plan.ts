import type { z } from 'zod'
import { listYield } from '#lib/cloth/confirm-cut'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { cutSteps } from '#lib/cloth/cut-steps'
import type { AskedCut } from '#lib/coverage/asked-cut'
import type { CarryOutRefused } from '#lib/db/cut-plan/carry-out-cut'
import type { ClaimPlanRefused } from '#lib/db/cut-plan/claim-cut-plan'
import type { PlannedWish } from '#lib/db/cut-plan/cut-plan-rows'
import type { KeepRefused } from '#lib/db/cut-plan/keep-cut-plan'
import { type CutPiece, type CutPlanDetail, readCutPieces } from '#lib/db/cut-plan/queries'
import { type StuckWish, wishIdAt, wishIndexOf } from '#lib/db/cut-plan/read-cut-choices'
import type { SearchedCut, StartCutRefused } from '#lib/db/cut-plan/start-cut'
import { secondsRun } from '#lib/db/job/jobs'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { boundWords, describeCutRefusal, leftOutWords, wishTitle } from '#words/cut-plan'
import { cutNames, stepWords } from '#words/cut-steps'
import type { getCutJob, getCutPlan } from './cut-plans'
import { notFound, Problem, type ProblemError } from './problem'

type Found = NonNullable<z.input<(typeof getCutJob)['answer']>['found']>

function describeFound(
  { asked, wishes, plan }: { asked: AskedCut; wishes: readonly PlannedWish[]; plan: CutPlan },
  pieces: ReadonlyMap<string, CutPiece>,
): Found {
  const titleOf = new Map(wishes.map(({ id, title }) => [id, title]))
  const titles = new Map(asked.wishes.map((wish, at) => [wishIdAt(at), wishTitle(wish, titleOf.get(wishIdAt(at)) ?? '', 'in')]))
  const names = cutNames(plan.layouts, titles)
  const left = new Map<string, number>()
  for (const { wishId } of plan.leftOut) left.set(wishId, (left.get(wishId) ?? 0) + 1)
  const copies = asked.wishes.reduce((sum, wish) => sum + wish.copies, 0)
  return {
    copies,
    cutCopies: copies - plan.leftOut.length,
    cutCount: plan.cutCount,
    wasteUm2: plan.wasteUm2,
    isProved: plan.isProved,
    boundText: boundWords(plan, asked.objective),
    leftOut: [...left].map(([wishId, many]) => ({
      wish: wishIndexOf(wishId),
      title: titles.get(wishId) ?? '',
      copies: many,
      why: leftOutWords(wishes.find(({ id }) => id === wishId)?.fitsSome ?? false, plan.isProved),
    })),
    pieces: plan.layouts.map((layout) => {
      const piece = pieces.get(layout.pieceId)
      return {
        clothPieceId: layout.pieceId,
        label: piece?.label ?? null,
        name: piece?.name ?? '',
        widthUm: layout.root.widthUm,
        heightUm: layout.root.heightUm,
        steps: stepWords(cutSteps(layout), { ...names, unit: 'in', both: true }).map(({ act, results }) =>
          [act, ...results].join(' '),
        ),
        parts: listYield(layout).map((part) => ({
          key: part.key,
          kind: part.kind,
          wish: part.kind === 'wanted' ? wishIndexOf(part.wishId) : null,
          title: part.kind === 'wanted' ? (titles.get(part.wishId) ?? '') : `offcut ${part.number}`,
          isTurned: part.kind === 'wanted' && part.isTurned,
          xUm: part.xUm,
          yUm: part.yUm,
          widthUm: part.widthUm,
          heightUm: part.heightUm,
          sizeText: formatClothSize(part, 'in'),
        })),
      }
    }),
  }
}

export async function describeCutJob(job: SearchedCut): Promise<z.input<(typeof getCutJob)['answer']>> {
  const { id, state, timeLimitSeconds, plan, about, request } = job
  const pieces = plan ? await readCutPieces(request.pieces.map((piece) => piece.id)) : new Map<string, CutPiece>()
  return {
    jobId: id,
    state: state.kind,
    seconds: secondsRun(job),
    timeLimitSeconds,
    found: plan && describeFound({ ...about, plan }, pieces),
  }
}

export function describeCutPlan(kept: CutPlanDetail): z.input<(typeof getCutPlan)['answer']> {
  const { id, version, title, status, createdAt, closedAt, asked, made } = kept
  return {
    ...{ cutPlanId: id, version, title, status },
    ...{ createdAt: createdAt.toISOString(), closedAt: closedAt?.toISOString() ?? null },
    ...{ objective: asked.objective, gapUm: asked.gapUm, leastOffcutUm: asked.leastOffcutUm, seed: asked.seed },
    found: describeFound(kept, new Map(kept.pieces.map((piece) => [piece.id, piece]))),
    made: made.map((piece) => ({
      clothPieceId: piece.id,
      parentId: piece.parentId,
      label: piece.label,
      widthUm: piece.widthUm,
      heightUm: piece.heightUm,
    })),
  }
}

/** Why a plan was not kept, given up or carried out. */
export const describeCutProblem = (refusal: KeepRefused | ClaimPlanRefused | CarryOutRefused): Problem =>
  refusal.kind === 'no-such-plan'
    ? notFound('plan of cuts', refusal.planId)
    : new Problem('refused', describeCutRefusal(refusal, 'in'))

const stuckMessages: Record<StuckWish['why'], string> = {
  gone: 'There is no such design or project, or the project is of another design.',
  'no-size': 'Nobody knows how large the design is.',
  'no-piece': 'No free piece takes it.',
}

/** Why a search was not begun. */
export function describeStartRefusal(refusal: StartCutRefused): Problem {
  switch (refusal.kind) {
    case 'too-many-at-once':
      return new Problem('refused', `${refusal.most} searches run already. Wait for one to end, or stop it.`)
    case 'nothing-to-cut':
      return new Problem(
        'refused',
        refusal.uselessIds.length > 0
          ? `Nothing asked for fits the pieces named, or they are kept for something else: ${refusal.uselessIds.join(', ')}.`
          : 'No free piece takes any of it.',
      )
    case 'not-known': {
      const errors = refusal.stuck.map(
        ({ wishId, why }): ProblemError => ({ field: `/wishes/${wishIndexOf(wishId)}`, message: stuckMessages[why] }),
      )
      return new Problem('invalid', `wishes: ${errors[0]?.message}`, { errors })
    }
  }
}
