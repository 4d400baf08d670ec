import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { Answers } from '#lib/db/answers/answers'
import type { DesignFacts } from '#lib/db/answers/read-designs'
import { formatClothSize } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { placeRef } from './collection'
import { listAnswer, type ThreadRef } from './cover'

const clothWords = ['none', 'smaller-margin', 'fits'] as const

export function describeStitches(design: Pick<Design, 'size' | 'advised'>) {
  const size = stitchSize(design)
  return size && { width: size.width, height: size.height, isEstimated: size.isEstimated }
}

/** One design as lists give it, answered from these owners' goods. */
export function describeDesign(answers: Answers, facts: DesignFacts, ownerIds: readonly string[]) {
  const { world } = answers
  const { design } = facts
  const themes = (axis: 'season' | 'subject' | 'form') =>
    facts.themeIds.flatMap((id) => {
      const theme = world.themes.get(id)
      return theme?.axis === axis ? [{ id, name: theme.name }] : []
    })
  const answer = answers.coverage(ownerIds).answerFor(design.id)
  const cloth = answers.cloth(ownerIds).columns
  const row = cloth.rowOf(design.id)
  return {
    designId: design.id,
    title: design.title,
    chart: { chartId: design.chartId, title: facts.chartTitle, kind: facts.kind },
    designers: facts.designerIds.map((id) => ({ id, name: world.designers.get(id) ?? '' })),
    seasons: themes('season'),
    subjects: themes('subject'),
    forms: themes('form'),
    ownerId: facts.ownerId,
    copies: facts.copies,
    home: placeRef(world.places.get(facts.homePlaceId ?? '')),
    current: placeRef(world.places.get(facts.currentPlaceId ?? facts.homePlaceId ?? '')),
    stitches: describeStitches(design),
    boughtOn: facts.boughtOn,
    threads: answer && listAnswer(answer.best),
    cloth: clothWords[row < 0 ? 0 : (cloth.fit[row] as number)] ?? 'none',
  }
}

export function describePiece(answers: Answers, piece: ClothPiece) {
  const { places } = answers.world
  return {
    clothPieceId: piece.id,
    label: piece.label,
    name: piece.name,
    colourName: piece.colourName,
    countText: formatCount(piece.ends, piece.picks),
    weave: piece.weave,
    sizeText: formatClothSize(piece, 'in'),
    widthUm: piece.widthUm,
    heightUm: piece.heightUm,
    isOffcut: piece.isOffcut,
    home: placeRef(places.get(piece.homePlaceId ?? '')),
    current: placeRef(places.get(piece.currentPlaceId ?? piece.homePlaceId ?? '')),
  }
}

/** A stored thread by its names. */
export function threadRef(answers: Answers, threadId: string): ThreadRef {
  const { threads, lines, lineOfThread } = answers.world
  const thread = threads.get(threadId)
  const line = lines.get(lineOfThread.get(threadId) ?? '')
  return { threadId, maker: line?.makerName ?? '', line: line?.name ?? '', code: thread?.code ?? '', name: thread?.name ?? null }
}
