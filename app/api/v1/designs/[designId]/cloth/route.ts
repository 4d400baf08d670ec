import { describePiece, describeStitches } from '#api/describe-design'
import { describeContrast, describeFrame, describeSizedOn, distortionOrNull, fitOrNull } from '#api/describe-design-cloth'
import { describeCut, describeFit } from '#api/describe-fit'
import { getDesignCloth } from '#api/design-cloth'
import { chosenOwners } from '#api/owners'
import { badParameter, notFound, Problem } from '#api/problem'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { judgeClothContrast } from '#lib/cloth/contrast'
import { frameSizeOf } from '#lib/cloth/frame-opening'
import { findFinishing } from '#lib/cloth/margins'
import { answerDesignCloth } from '#lib/coverage/design-cloth'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { parseCount } from '#lib/quantity/count'

const mostRanked = 50

const get = serve(getDesignCloth, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [answers, detail] = await Promise.all([getAnswers(), findDesign(path.designId)])
  if (!detail) return notFound('design', path.designId)
  const { design, lists } = detail
  const { settings } = answers.world
  const pieces = answers.world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  const finishing = findFinishing(settings, query.finishing ?? settings.finishing)
  if (!finishing)
    return badParameter('finishing', 'there is no way of finishing of that name.', 'a name that listFinishings gives')
  const count = query.count === undefined ? null : parseCount(query.count)
  if (query.count !== undefined && !count)
    return badParameter('count', 'it is not a count.', '36, 34 x 31, 110 per 10 cm, 36 over 2')
  if (query.piece !== undefined && !pieces.some(({ id }) => id === query.piece)) return notFound('piece of cloth', query.piece)
  const said = { leftUm: query.leftUm, rightUm: query.rightUm, topUm: query.topUm, bottomUm: query.bottomUm }
  const margins = { ...finishing.margins }
  for (const side of ['leftUm', 'rightUm', 'topUm', 'bottomUm'] as const) margins[side] = said[side] ?? margins[side]
  const choices = {
    margins,
    over: query.over === undefined ? null : (Number(query.over) as 1 | 2),
    motifs: { across: query.across, down: query.down, gapThreads: query.gapThreads },
    count,
    pieceId: query.piece ?? null,
  }
  const common = { ownerIds, designId: path.designId, stitches: describeStitches(design), finishing: finishing.name, margins }
  const cloth = answerDesignCloth(design, pieces, choices, settings)
  if (cloth === null) {
    const nothing = {
      ranked: [],
      bestPieceId: null,
      toBuy: null,
      shown: null,
      kinds: [],
      tried: [],
      sizedOn: null,
      finishings: [],
    }
    return { ...common, uncertaintyUm: 0, ...nothing }
  }
  const listId = query.list ?? coverageOfDesign(answers, { design, lists }, { ownerIds })?.comparison[0]?.listId
  const list = lists.find(({ id }) => id === listId)
  if (query.list !== undefined && !list) return notFound('thread list of this design', query.list)
  const threadIds = [...new Set(list?.keyLines.flatMap((line) => line.threads.map(({ threadId }) => threadId)) ?? [])]
  const threads = threadIds.map((threadId) => ({ threadId, lab: answers.world.threads.get(threadId)?.lab ?? null }))
  const contrastOn = (piece: ClothPiece) =>
    threads.length > 0 ? describeContrast(answers, judgeClothContrast(piece.lab, threads)) : null
  const { ranked, toBuy, shown, counts, tried, sizedOn, finishings, size } = cloth
  const piece = (one: ClothPiece) => describePiece(answers, one)
  return {
    ...common,
    uncertaintyUm: size.uncertaintyUm,
    ranked: ranked
      .slice(0, mostRanked)
      .map(({ piece: one, fit, leftAreaUm2 }) => ({ piece: piece(one), fit: describeFit(fit), leftAreaUm2 })),
    bestPieceId: ranked[0]?.fit.kind === 'fits' ? ranked[0].piece.id : null,
    toBuy: toBuy && describeSize(toBuy),
    shown: shown && {
      ...{ piece: piece(shown.piece), over: shown.over, fit: describeFit(shown.fit) },
      ...{ upright: describeFit(shown.upright), turned: describeFit(shown.turned) },
      ...{ isTurnable: shown.piece.isTurnable, isReserved: shown.piece.isReserved },
      afterSquaring: fitOrNull(shown.afterSquaring),
      distortion: distortionOrNull(shown.distortion),
      contrast: contrastOn(shown.piece),
      frame: describeFrame(
        shown.fit.finished,
        frameSizeOf(shown.fit.finished, settings.framing, {
          shrinkPercent: sizedOn?.shrinkPercent ?? 0,
          roundingUm: settings.roundingUm,
          uncertaintyUm: size.uncertaintyUm,
        }),
      ),
    },
    kinds: counts.map((row) => ({
      ...{ kind: row.kind, weave: row.weave, over: row.over, isAdvised: row.isAdvised, isAgainstAdvice: row.isAgainstAdvice },
      ...{ pieceCount: row.pieceCount, reservedCount: row.reservedCount, isOnlyTurned: row.isOnlyTurned },
      best: { piece: piece(row.piece), fit: describeFit(row.fit) },
      fittingCount: row.ranked.filter(({ fit }) => fit.kind === 'fits').length,
      afterSquaring: fitOrNull(row.afterSquaring),
      distortion: distortionOrNull(row.distortion),
      contrast: contrastOn(row.piece),
    })),
    tried: tried.map((row) => ({
      ...{ over: row.over, heldCount: row.heldCount },
      upright: describeCut(row.upright.finished, row.upright.cut),
      turned: row.turned && describeCut(row.turned.finished, row.turned.cut),
      best: row.ranked[0] ? { piece: piece(row.ranked[0].piece), fit: describeFit(row.ranked[0].fit) } : null,
    })),
    sizedOn: sizedOn && describeSizedOn(sizedOn),
    finishings: finishings.map(({ name, isOwn, margins: its, cut }) => ({
      ...{ name, isOwn, margins: its, cut: describeSize(cut) },
      exactCut: describeSize({ widthUm: cut.exactWidthUm, heightUm: cut.exactHeightUm }),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
