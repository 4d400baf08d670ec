import type { ClothColumns } from '#lib/chart/catalogue'
import { withRoom } from '#lib/chart/with-room'
import { choosePiece, type PieceChoice } from '#lib/cloth/choose-piece'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { fitPiece } from '#lib/cloth/fit'
import { clothKindKey } from '#lib/cloth/match-cloth'
import { compareExact } from '#lib/stock/batch'
import {
  byKind,
  type ClothDesign,
  type ClothSettings,
  isAdvisedFor,
  type KindOnHand,
  leastLacking,
  overOn,
  requestOf,
} from './cloth-answer'
import { type AnswerColumn, answerColumn, ClothGroup, withAnswerRoom } from './cloth-group'
import { type Advice, type AskedDesigns, type AskedRow, DesignRows, type OverSlot, overOf } from './design-rows'
import { type PieceUse, usesOf } from './piece-uses'

/** How well the best piece of the advised kind takes a design: 0 none, 1 with smaller margins, 2 as asked. Also 0 when no size is known. */
export const clothFits = { none: 0, smallerMargin: 1, fits: 2 } as const

/** One kind of cloth on hand over one number of threads, how many of its pieces take the design and how the best of them does. */
export type KindAnswer = KindOnHand & {
  /** Worked over as many threads as is usual for it; else over the other number the weave allows. */
  isUsualOver: boolean
  fitCount: number
  /** More that would at smaller margins. */
  nearCount: number
}

/** The first column is for the usual number of threads. */
type Kind = {
  name: string
  weave: Weave
  group: ClothGroup
  columns: [KindColumn, ...KindColumn[]]
}
type KindColumn = { slot: OverSlot; column: AnswerColumn }
type Change = { before: ClothPiece | null; after: ClothPiece | null }

/** From so many changed pieces of a group on, sweeping over all its designs again costs less than setting each one right. */
const mostExchanged = 6

/**
 * All designs on all pieces of cloth, answered and kept so: for each design and each kind of cloth on hand, over each number of threads
 * the weave allows, how many pieces fit as asked, how many more would at smaller margins, and which is the best; and the same among
 * the pieces its chart advises.
 *
 *   pieces ─┬─ by kind ──── single 28, single 32, block 14 …      a column over all designs that may be worked on it, for each over
 *           └─ by advice ── 28 over two single, any …             a column over the designs whose charts advise so
 *
 * A changed piece touches the columns of its kind and of the advices it suits, a changed design its row in each. 20,000 designs on 1,500
 * pieces: see tests/bench, cloth-pairs.
 */
export class ClothAnswers {
  readonly #settings: ClothSettings
  readonly #rows = new DesignRows()
  /** Free pieces by id. */
  #pieces = new Map<string, ClothPiece>()
  readonly #kinds = new Map<string, Kind>()
  /** By index of advice. */
  readonly #advised = new Map<number, ClothGroup>()
  #advisedColumn = answerColumn(64)
  #fit = new Uint8Array(64)
  #names: string[] = []
  #wordCount = 1
  #bits = new Uint32Array(64)

  constructor(designs: Iterable<ClothDesign>, pieces: readonly ClothPiece[], settings: ClothSettings) {
    this.#settings = settings
    for (const design of designs) this.#rows.put(design)
    this.#makeRoom()
    this.setPieces(pieces)
  }

  /** Take over the pieces on hand; reserved ones are passed over. Only what changed since the last time is worked out. */
  setPieces(pieces: readonly ClothPiece[]): void {
    const free = new Map(pieces.filter(({ isReserved }) => !isReserved).map((piece) => [piece.id, piece]))
    const changes: Change[] = []
    for (const before of this.#pieces.values()) if (!free.has(before.id)) changes.push({ before, after: null })
    for (const after of free.values()) {
      const before = this.#pieces.get(after.id) ?? null
      if (!before || !isSameCloth(before, after)) changes.push({ before, after })
    }
    this.#pieces = free
    this.#changeKinds(changes)
    this.#changeAdvised(changes)
  }

  /** Add a design, or take over its changed size or advice. */
  setDesign(design: ClothDesign): void {
    const row = this.#rows.put(design)
    this.#makeRoom()
    const asked = this.#rows.at(row)
    for (const { weave, group, columns } of this.#kinds.values()) {
      for (const { slot, column } of columns) {
        const over = asked && overOf(weave, slot, asked.design.advised)
        if (asked && over) group.answerOne({ ...asked.size, over }, row, column)
        else clearRow(column, row)
      }
    }
    if (asked) this.#answerAdvised(asked, row)
    else clearRow(this.#advisedColumn, row)
    this.#showFit(row)
    for (const name of this.#names) this.#showKind(name, row, row + 1)
  }

  removeDesign(designId: string): void {
    this.#rows.remove(designId)
  }

  /**
   * Which piece to cut for a design, or what to buy, as `clothAnswer` has it; but only the first of the pieces is ranked. Null when the
   * size is not known, or the design.
   */
  choiceFor(designId: string): PieceChoice | null {
    const asked = this.#find(designId)
    if (!asked) return null
    const { row, size, advised, advice } = asked
    const slot = this.#advisedColumn.best[row] as number
    const piece = slot < 0 ? null : this.#latest((this.#advised.get(advice) as ClothGroup).pieceAt(slot))
    const over = advised?.over ?? overOn(piece?.weave ?? 'single', null)
    return choosePiece({ ...requestOf(size, over, this.#settings), buyCount: advised?.count ?? null }, piece ? [piece] : [])
  }

  /**
   * How a design comes out on every kind of cloth on hand that its chart allows, over every number of threads the weave does: the advised
   * kinds first, then by how well they fit, by name, the usual over first. Empty when its size is not known.
   */
  kindsFor(designId: string): KindAnswer[] {
    const asked = this.#find(designId)
    if (!asked) return []
    const { row, size, advised } = asked
    const answers: KindAnswer[] = []
    for (const { name, weave, group, columns } of this.#kinds.values()) {
      for (const { slot, column } of columns) {
        const over = overOf(weave, slot, advised)
        if (over === null || group.size === 0) continue
        const request = requestOf(size, over, this.#settings)
        const best = column.best[row] as number
        const piece = best < 0 ? null : group.pieceAt(best)
        const taken = piece ? { piece, fit: fitPiece(request, piece) } : leastLacking(request, group.pieces())
        answers.push({
          ...{ kind: name, weave, over, isUsualOver: slot === 'usual', pieceCount: group.size },
          isAdvised: advised !== null && [...group.pieces()].some((member) => isAdvisedFor(member, advised)),
          ...{ fitCount: column.fits[row] as number, nearCount: column.near[row] as number },
          ...{ best: this.#latest(taken.piece), fit: taken.fit },
        })
      }
    }
    return answers.sort((a, b) => byKind(a, b) || Number(b.isUsualOver) - Number(a.isUsualOver))
  }

  /**
   * The designs a piece takes, as asked or at smaller margins, in no order: each over the number of threads that suits it better, or
   * over the one asked for. The piece need not be one of these, nor free.
   */
  designsFor(piece: ClothPiece, over: 1 | 2 | null = null): PieceUse[] {
    return usesOf(piece, over, this.#rows, this.#settings)
  }

  get columns(): ClothColumns {
    return {
      layout: this.#rows.layout,
      rowOf: (designId) => this.#rows.rowOf(designId),
      fit: this.#fit,
      kinds: this.#names,
      wordCount: this.#wordCount,
      bits: this.#bits,
    }
  }

  #find(designId: string) {
    const row = this.#rows.rowOf(designId)
    const asked = row < 0 ? null : this.#rows.at(row)
    return asked && { row, size: asked.size, advised: asked.design.advised, advice: asked.advice }
  }

  /** As last read: what is written on it may have changed, though nothing that fit hangs on. */
  #latest(piece: ClothPiece): ClothPiece {
    return this.#pieces.get(piece.id) ?? piece
  }

  /** Room for every row in every column. */
  #makeRoom(): void {
    const { count } = this.#rows
    this.#fit = withRoom(this.#fit, count)
    this.#bits = withRoom(this.#bits, count * this.#wordCount)
    this.#advisedColumn = withAnswerRoom(this.#advisedColumn, this.#fit.length)
    for (const { columns } of this.#kinds.values()) {
      for (const each of columns) each.column = withAnswerRoom(each.column, this.#fit.length)
    }
  }

  #changeKinds(changes: readonly Change[]): void {
    const byName = new Map<string, Change[]>()
    const note = (name: string, change: Change) => byName.set(name, [...(byName.get(name) ?? []), change])
    for (const { before, after } of changes) {
      const [was, is] = [before && clothKindKey(before), after && clothKindKey(after)]
      if (was !== null && was === is) note(was, { before, after })
      else {
        if (was !== null) note(was, { before, after: null })
        if (is !== null) note(is, { before: null, after })
      }
    }
    for (const [name, of] of byName) {
      const weave = ((of[0] as Change).after ?? ((of[0] as Change).before as ClothPiece)).weave
      const kind = this.#kinds.get(name) ?? this.#addKind(name, weave)
      const answered = kind.columns.map(({ slot, column }) => ({ asked: this.#rows.askedOn(weave, slot), column }))
      carryOut(kind.group, of, answered)
      if (kind.group.size === 0) this.#kinds.delete(name)
    }
    this.#showAllKinds([...byName.keys()])
  }

  #addKind(name: string, weave: Weave): Kind {
    const column = (slot: OverSlot): KindColumn => ({ slot, column: answerColumn(this.#fit.length) })
    const kind: Kind = {
      ...{ name, weave, group: new ClothGroup(this.#settings) },
      columns: weave === 'single' ? [column('usual'), column('other')] : [column('usual')],
    }
    this.#kinds.set(name, kind)
    return kind
  }

  #changeAdvised(changes: readonly Change[]): void {
    this.#rows.advices.forEach((advice, index) => {
      const group = this.#advised.get(index)
      const asked = this.#rows.askedBy(index)
      if (!group) {
        const made = this.#addAdvised(index, advice)
        for (const designs of asked) made.answerAll(designs, this.#advisedColumn)
        for (const { rows } of asked) for (const row of rows) this.#showFit(row)
        return
      }
      const suits = (piece: ClothPiece | null) => (piece && isAdvisedFor(piece, advice.advised) ? piece : null)
      const of = changes
        .map(({ before, after }) => ({ before: suits(before), after: suits(after) }))
        .filter(({ before, after }) => before || after)
      if (of.length === 0) return
      carryOut(group, of, [{ asked, column: this.#advisedColumn }])
      for (const { rows } of asked) for (const row of rows) this.#showFit(row)
    })
  }

  #addAdvised(index: number, { advised }: Advice): ClothGroup {
    const group = new ClothGroup(this.#settings)
    group.change(
      [],
      [...this.#pieces.values()].filter((piece) => isAdvisedFor(piece, advised)),
    )
    this.#advised.set(index, group)
    return group
  }

  #answerAdvised({ size, advice }: AskedRow, row: number): void {
    const known = this.#rows.advices[advice] as Advice
    const group = this.#advised.get(advice) ?? this.#addAdvised(advice, known)
    group.answerOne({ ...size, over: known.over }, row, this.#advisedColumn)
  }

  #showFit(row: number): void {
    const { fits, near } = this.#advisedColumn
    this.#fit[row] =
      (fits[row] as number) > 0 ? clothFits.fits : (near[row] as number) > 0 ? clothFits.smallerMargin : clothFits.none
  }

  /** After these kinds changed: their bits anew, or all where another kind came or one is used up. */
  #showAllKinds(changed: readonly string[]): void {
    const names = [...this.#kinds.keys()].sort(compareExact)
    const isSame = names.length === this.#names.length && names.every((name, index) => name === this.#names[index])
    if (!isSame) {
      this.#names = names
      this.#wordCount = Math.max(1, Math.ceil(names.length / 32))
      this.#bits = new Uint32Array(this.#fit.length * this.#wordCount)
    }
    for (const name of isSame ? changed : names) this.#showKind(name, 0, this.#rows.count)
  }

  /** Which of some rows, one after the other, a kind takes as asked. */
  #showKind(name: string, from: number, end: number): void {
    const kind = this.#kinds.get(name)
    if (!kind) return
    const { fits } = kind.columns[0].column
    const index = this.#names.indexOf(name)
    const bit = 1 << (index & 31)
    for (let row = from; row < end; row++) {
      const word = row * this.#wordCount + (index >>> 5)
      const bits = this.#bits[word] as number
      this.#bits[word] = (fits[row] as number) > 0 ? bits | bit : bits & ~bit
    }
  }
}

function carryOut(
  group: ClothGroup,
  changes: readonly Change[],
  answered: readonly { asked: readonly AskedDesigns[]; column: AnswerColumn }[],
): void {
  if (changes.length <= mostExchanged && group.size > 0) {
    for (const { before, after } of changes) group.exchange(before, after, answered)
    return
  }
  const sides = (side: keyof Change) => changes.flatMap((change) => change[side] ?? [])
  group.change(sides('before'), sides('after'))
  for (const { asked, column } of answered) for (const designs of asked) group.answerAll(designs, column)
}

function clearRow({ fits, near, best }: AnswerColumn, row: number): void {
  fits[row] = 0
  near[row] = 0
  best[row] = -1
}

/** Nothing that fit, kind, advice or the order of choice hangs on is other. */
const isSameCloth = (a: ClothPiece, b: ClothPiece): boolean =>
  a.widthUm === b.widthUm &&
  a.heightUm === b.heightUm &&
  a.weave === b.weave &&
  a.ends.threads === b.ends.threads &&
  a.ends.perUm === b.ends.perUm &&
  a.picks.threads === b.picks.threads &&
  a.picks.perUm === b.picks.perUm &&
  a.isTurnable === b.isTurnable &&
  a.isSquared === b.isSquared &&
  a.washState === b.washState &&
  a.isOffcut === b.isOffcut &&
  a.label === b.label &&
  a.name === b.name
