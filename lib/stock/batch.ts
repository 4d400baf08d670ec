/** How the part length of a batch is known. `some` is an amount nobody has judged: it is not counted, and it is not zero. */
export const partCertainties = ['none', 'measured', 'label', 'guess', 'some'] as const
export type PartCertainty = (typeof partCertainties)[number]

/** What one put-up of thread is usually called. Any other word may stand in a record too. */
export const putUpWords = ['skein', 'hank', 'spool', 'card', 'cut'] as const

/** Stock of one thread: whole put-ups of one length, and a part one. Lengths in tenths of a millimetre of one strand. */
export type Batch = {
  id: string
  threadId: string
  ownerId: string
  /** Dye lot, exact text; null when unmarked. */
  lot: string | null
  /** What one of these is called where the line says otherwise; null: as the line says. */
  putUpWord: string | null
  putUpStrandTenths: number
  wholePutUps: number
  partStrandTenths: number
  partCertainty: PartCertainty
  homePlaceId: string | null
  currentPlaceId: string | null
}

/** Stock of a batch set aside for a project. */
export type StockPromise = { id: string; batchId: string; projectId: string; strandTenths: number }

/** Out: it is somewhere that is not its home. A batch with no home is not out. */
export const isOut = (batch: Pick<Batch, 'homePlaceId' | 'currentPlaceId'>): boolean =>
  batch.homePlaceId !== null && batch.currentPlaceId !== null && batch.currentPlaceId !== batch.homePlaceId

/** The length of a batch that can be counted on: whole put-ups and the part, of which `some` counts as nothing. */
export const knownStrandTenths = (
  batch: Pick<Batch, 'putUpStrandTenths' | 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>,
): number => batch.wholePutUps * batch.putUpStrandTenths + (batch.partCertainty === 'some' ? 0 : batch.partStrandTenths)

/** Orders texts by their characters' code units, so that a tie is broken the same way on every machine; null comes last. */
export function compareExact(a: string | null, b: string | null): number {
  if (a === b) return 0
  if (a === null) return 1
  if (b === null) return -1
  return a < b ? -1 : 1
}
