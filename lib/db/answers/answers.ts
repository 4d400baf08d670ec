import 'server-only'
import { Catalogue, type DesignRecord } from '#lib/chart/catalogue'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { marginsFor } from '#lib/cloth/margins'
import { ClothAnswers } from '#lib/coverage/cloth-answers'
import { CoverageEngine, type EngineThread, type WhatIf } from '#lib/coverage/engine'
import type { ListNeeds } from '#lib/coverage/need-columns'
import type { NeedIndex } from '#lib/coverage/need-index'
import { stockFigures } from '#lib/coverage/stock-figures'
import { type Supposition, supposeStock } from '#lib/coverage/suppose'
import type { Place } from '#lib/place/place'
import type { SearchIndex } from '#lib/search/search-index'
import type { Settings } from '#lib/settings/settings'
import type { Batch } from '#lib/stock/batch'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'
import type { Thread, ThreadLine } from '#lib/thread/thread'
import type { DesignFacts } from './read-designs'
import type { StockRows } from './read-threads'
import type { NotionFacts, ProjectFacts, Theme } from './read-world'

/** Everything the answers are worked out from, as read at one revision. */
export type World = {
  settings: Settings
  owners: Map<string, string>
  places: Map<string, Place>
  designers: Map<string, string>
  themes: Map<string, Theme>
  lines: Map<string, ThreadLine>
  lineOfThread: Map<string, string>
  threads: Map<string, Thread>
  standIns: Map<string, string[]>
  /** Codes that were merged into a thread, and titles given up for a chart's. */
  formerCodes: Map<string, string[]>
  formerTitles: Map<string, string[]>
  stock: StockRows
  pieces: ClothPiece[]
  notions: Map<string, NotionFacts>
  designs: Map<string, DesignFacts>
  projects: Map<string, ProjectFacts>
}

/** Owners are asked about alone or all together; more sets than this at once are worked out again when asked. */
const ownerSetsKept = 4

/**
 * Coverage, cloth, catalogue and search of the whole collection in memory, at one revision. The first two are kept for each set of
 * owners asked about. The shell that reads the database hands in what changed; nothing here reads or writes it.
 */
export class Answers {
  readonly catalogue: Catalogue
  readonly #engines = new Map<string, { ownerIds: string[]; engine: CoverageEngine }>()
  readonly #cloth = new Map<string, { ownerIds: string[]; answers: ClothAnswers }>()

  constructor(
    public revision: number,
    readonly world: World,
    /** What every list needs, whoever's stock it is asked of. */
    readonly needs: NeedIndex,
    readonly search: SearchIndex,
  ) {
    this.catalogue = new Catalogue([...world.designs.values()].map((facts) => this.#recordOf(facts)))
  }

  /** Coverage of every design from these owners' stock. */
  coverage(ownerIds: readonly string[]): CoverageEngine {
    return kept(this.#engines, ownerIds, (ids) => ({
      ownerIds: ids,
      engine: new CoverageEngine({
        index: this.needs,
        threads: [...this.world.lineOfThread.keys()].map((threadId) => this.#engineThread(threadId)),
        stock: [...this.world.stock.batches.keys()].map((threadId) => this.#figuresOf(threadId, ids)),
      }),
    })).engine
  }

  /** The cloth answer of every design from these owners' pieces. */
  cloth(ownerIds: readonly string[]): ClothAnswers {
    return kept(this.#cloth, ownerIds, (ids) => ({
      ownerIds: ids,
      answers: new ClothAnswers(
        [...this.world.designs.values()].map(({ design }) => design),
        this.#piecesOf(ids),
        clothSettings(this.world.settings),
      ),
    })).answers
  }

  /** Which designs' answers would change if something were bought or a bag unpacked; nothing is kept of it. */
  whatIf(ownerIds: readonly string[], supposition: Supposition): WhatIf[] {
    const { batches, promises } = this.world.stock
    const threadIds = new Set([...batches.keys(), ...supposition.buy.map(({ threadId }) => threadId)])
    const stock = new Map(
      [...threadIds].map((threadId) => [
        threadId,
        { batches: batches.get(threadId) ?? [], promises: promises.get(threadId) ?? [] },
      ]),
    )
    const supposed = [...supposeStock(stock, supposition)].map(([threadId, rows]) => freeStock({ threadId, ...rows, ownerIds }))
    return this.coverage(ownerIds).whatIf(supposed)
  }

  freeOf(threadId: string, ownerIds: readonly string[]): FreeStock {
    const { batches, promises } = this.world.stock
    return freeStock({
      threadId,
      batches: batches.get(threadId) ?? [],
      promises: promises.get(threadId) ?? [],
      ownerIds,
    })
  }

  /** What these owners hold of a thread, by batch. */
  batchesOf(threadId: string, ownerIds: readonly string[]): Batch[] {
    return (this.world.stock.batches.get(threadId) ?? []).filter((batch) => ownerIds.includes(batch.ownerId))
  }

  /** Take over the stock of these threads as just read. */
  setStock(threadIds: readonly string[], read: StockRows): void {
    const { batches, promises } = this.world.stock
    for (const threadId of threadIds) {
      replace(batches, threadId, read.batches.get(threadId))
      replace(promises, threadId, read.promises.get(threadId))
    }
    for (const { ownerIds, engine } of this.#engines.values()) {
      engine.setStock(threadIds.map((threadId) => this.#figuresOf(threadId, ownerIds)))
    }
  }

  /** Take over threads as just read; one that is not among them is gone. */
  setThreads(threadIds: readonly string[], read: ReadonlyMap<string, Thread>): void {
    for (const threadId of threadIds) {
      const thread = read.get(threadId)
      replace(this.world.threads, threadId, thread)
      if (!thread) continue
      this.world.lineOfThread.set(threadId, thread.lineId)
      // A list may name it before anybody's coverage is asked for.
      this.needs.addThread(threadId)
      for (const { engine } of this.#engines.values()) engine.setThread(this.#engineThread(threadId))
    }
  }

  setStandIns(standIns: Map<string, string[]>): void {
    const before = this.world.standIns
    this.world.standIns = standIns
    for (const threadId of new Set([...before.keys(), ...standIns.keys()])) {
      if (String(before.get(threadId)) === String(standIns.get(threadId))) continue
      for (const { engine } of this.#engines.values()) engine.setThread(this.#engineThread(threadId))
    }
  }

  setPieces(pieces: ClothPiece[]): void {
    this.world.pieces = pieces
    for (const { ownerIds, answers } of this.#cloth.values()) answers.setPieces(this.#piecesOf(ownerIds))
  }

  /** Take over designs and their lists as just read; one that is not among them is gone. */
  setDesigns(designIds: readonly string[], read: ReadonlyMap<string, DesignFacts>, lists: readonly ListNeeds[]): void {
    const asked = new Set(designIds)
    setNeeds(this.needs, asked, lists)
    for (const designId of asked) {
      const facts = read.get(designId)
      replace(this.world.designs, designId, facts)
      if (facts) this.catalogue.upsert(this.#recordOf(facts))
      else this.catalogue.remove(designId)
      for (const { answers } of this.#cloth.values()) {
        if (facts) answers.setDesign(facts.design)
        else answers.removeDesign(designId)
      }
    }
    for (const { engine } of this.#engines.values()) for (const designId of asked) engine.refreshDesign(designId)
  }

  /** Take over settings that change no need: the margins, say. */
  setSettings(settings: Settings): void {
    this.world.settings = settings
    this.#cloth.clear()
  }

  /** Take over projects as just read; one that is not among them is gone. */
  setProjects(projectIds: readonly string[], read: ReadonlyMap<string, ProjectFacts>): void {
    for (const projectId of projectIds) replace(this.world.projects, projectId, read.get(projectId))
  }

  #figuresOf(threadId: string, ownerIds: readonly string[]) {
    const { batches, promises } = this.world.stock
    return stockFigures({ threadId, batches: batches.get(threadId) ?? [], promises: promises.get(threadId) ?? [], ownerIds })
  }

  #piecesOf(ownerIds: readonly string[]): ClothPiece[] {
    return this.world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  }

  #engineThread(threadId: string): EngineThread {
    const line = this.world.lines.get(this.world.lineOfThread.get(threadId) ?? '')
    if (!line) throw new RangeError(`Answers: no line for thread ${threadId}`)
    return {
      threadId,
      lotsMatter: line.lotsMatter,
      putUpStrandTenths: line.putUpStrandTenths,
      standInThreadIds: this.world.standIns.get(threadId) ?? [],
    }
  }

  #recordOf(facts: DesignFacts): DesignRecord {
    const { design, designerIds, themeIds } = facts
    const { designers, themes, places } = this.world
    const size = stitchSize(design)
    const themed = (axis: Theme['axis']) => themeIds.filter((id) => themes.get(id)?.axis === axis)
    return {
      designId: design.id,
      chartId: design.chartId,
      title: design.title,
      chartTitle: facts.chartTitle,
      kind: facts.kind,
      ownerId: facts.ownerId,
      designerIds,
      designerNames: designerIds.map((id) => designers.get(id) ?? ''),
      seasonIds: themed('season'),
      subjectIds: themed('subject'),
      formIds: themed('form'),
      placeIds:
        places
          .get(facts.homePlaceId ?? '')
          ?.path.split('/')
          .filter(Boolean) ?? [],
      homePlaceId: facts.homePlaceId,
      currentPlaceId: facts.currentPlaceId,
      copies: facts.copies,
      stitchCount: size && size.width * size.height,
      boughtOn: facts.boughtOn,
    }
  }
}

/** Take over the lists of these designs as just read; one that is not among them is gone. */
export function setNeeds(needs: NeedIndex, designIds: Iterable<string>, lists: readonly ListNeeds[]): void {
  const stays = new Set(lists.map(({ listId }) => listId))
  for (const designId of designIds) {
    for (const row of [...needs.rowsOf(designId)]) {
      const listId = needs.listAt(row) as string
      if (!stays.has(listId)) needs.removeList(designId, listId)
    }
  }
  for (const list of lists) needs.setList(list)
}

export const clothSettings = (settings: Settings) => ({
  margins: marginsFor(settings, settings.finishing),
  shrinkPercent: settings.shrinkPercent,
  roundingUm: settings.roundingUm,
})

function replace<T>(map: Map<string, T>, key: string, value: T | undefined): void {
  if (value === undefined) map.delete(key)
  else map.set(key, value)
}

/** The entry for a set of owners, made when first asked for; the one asked for longest ago makes room. */
function kept<T>(cache: Map<string, T>, ownerIds: readonly string[], make: (ownerIds: string[]) => T): T {
  const ids = [...ownerIds].sort()
  const key = ids.join(' ')
  const entry = cache.get(key) ?? make(ids)
  cache.delete(key)
  cache.set(key, entry)
  if (cache.size > ownerSetsKept) cache.delete(cache.keys().next().value as string)
  return entry
}
