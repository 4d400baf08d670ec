import { givenPlaceKinds, type PlaceKind } from '#lib/place/place'
import { textKey } from '#lib/quantity/text-key'
import type { ImportOperation, PlannedMovement, RowOutcome } from './import-plan'
import type { RowError, RowErrorKind, RowWarning, RowWarningKind } from './row-error'
import { canonicalJson } from './row-key'
import { type ImportedNoun, importedNouns, type RowOf, type Snapshot, type ThemeAxis } from './snapshot'

type AnyRow = RowOf[ImportedNoun]

/** Where a plan is worked out: what is there together with what was decided so far, and the operations that lead from one to the other. */
export class PlanningDesk {
  readonly errors: RowError[] = []
  readonly warnings: RowWarning[] = []
  readonly outcomes: RowOutcome[] = []
  readonly movements: PlannedMovement[] = []
  private readonly rows = new Map<ImportedNoun, Map<string, AnyRow>>()
  private readonly operations = new Map<string, ImportOperation>()
  private readonly idOf = new Map<string, string>()
  private readonly formerOf = new Map<string, string>()

  constructor(
    private readonly snapshot: Snapshot,
    private readonly newId: () => string,
    private readonly columnOf: Record<string, string>,
  ) {
    for (const noun of importedNouns) {
      const known = new Map<string, AnyRow>()
      const byId = [...(snapshot[noun] as readonly AnyRow[])].sort((left, right) => (left.id < right.id ? -1 : 1))
      for (const row of byId) known.set(row.id, row)
      this.rows.set(noun, known)
    }
    for (const row of snapshot.owner) this.idOf.set(nameKey('owner', row.name), row.id)
    // A place that is there stands before one that is gone and had the same label.
    for (const row of [...snapshot.place].sort((left, right) => Number(right.isGone) - Number(left.isGone)))
      this.idOf.set(nameKey('place', row.label), row.id)
    // The first of a label is the one it means; see `findMeant` in lib/db/place, which asks the same of one label.
    const meaning = [...snapshot.formerLabel].sort((left, right) => Number(left.isSplit) - Number(right.isSplit))
    for (const { label, placeId } of meaning) if (!this.formerOf.has(textKey(label))) this.formerOf.set(textKey(label), placeId)
    for (const row of snapshot.maker) this.idOf.set(nameKey('maker', row.name), row.id)
    for (const row of snapshot.designer) this.idOf.set(nameKey('designer', row.name), row.id)
    for (const row of snapshot.theme) this.idOf.set(nameKey(row.axis, row.name), row.id)
  }

  get<N extends ImportedNoun>(noun: N, id: string): RowOf[N] {
    const row = this.rows.get(noun)?.get(id)
    if (row === undefined) throw new RangeError(`PlanningDesk: no ${noun} ${id}`)
    return row as RowOf[N]
  }

  find<N extends ImportedNoun>(noun: N, id: string): RowOf[N] | null {
    return (this.rows.get(noun)?.get(id) as RowOf[N] | undefined) ?? null
  }

  /** All there are, those in the snapshot by id and then the new ones in the order they were made. */
  list<N extends ImportedNoun>(noun: N): RowOf[N][] {
    return [...(this.rows.get(noun)?.values() ?? [])] as RowOf[N][]
  }

  /** The id of what an earlier import made of a row like this; undefined when there was none. */
  broughtInAs(rowKey: string): string | undefined {
    return this.snapshot.broughtIn.get(rowKey)
  }

  /** The ids of all that earlier imports made, and nothing has taken over since. */
  broughtInIds(): ReadonlySet<string> {
    return new Set(this.snapshot.broughtIn.values())
  }

  add<N extends ImportedNoun>(noun: N, row: Omit<RowOf[N], 'id'>, rowNumber: number): string {
    const id = this.newId()
    const whole = { id, ...row } as unknown as RowOf[N]
    this.rows.get(noun)?.set(id, whole)
    this.operations.set(`${noun} ${id}`, { do: 'add', noun, id, row: whole, rowNumber } as unknown as ImportOperation)
    return id
  }

  /** @returns whether anything differs from what was there. Values left undefined say nothing. */
  change<N extends ImportedNoun>(noun: N, id: string, values: Partial<RowOf[N]>, rowNumber: number): boolean {
    const before = this.get(noun, id)
    const changed = Object.entries(values).filter(
      ([name, value]) => value !== undefined && !isSame(value, (before as Record<string, unknown>)[name]),
    )
    if (changed.length === 0) return false
    const after = { ...before, ...Object.fromEntries(changed) } as RowOf[N]
    this.rows.get(noun)?.set(id, after)

    const key = `${noun} ${id}`
    const earlier = this.operations.get(key)
    if (earlier?.do === 'add') {
      this.operations.set(key, { ...earlier, row: after } as ImportOperation)
      return true
    }
    const original = Object.fromEntries(changed.map(([name]) => [name, (before as Record<string, unknown>)[name]]))
    this.operations.set(key, {
      do: 'change',
      noun,
      id,
      before: { ...original, ...earlier?.before },
      after: { ...earlier?.after, ...Object.fromEntries(changed) },
      rowNumber: Math.min(rowNumber, earlier?.rowNumber ?? rowNumber),
    } as unknown as ImportOperation)
    return true
  }

  isNew(noun: ImportedNoun, id: string): boolean {
    return this.operations.get(`${noun} ${id}`)?.do === 'add'
  }

  refuse(rowNumber: number, field: string, kind: RowErrorKind, raw: string, accepted?: readonly string[]): void {
    this.errors.push({
      rowNumber,
      field,
      column: this.columnOf[field] ?? null,
      kind,
      raw,
      ...(accepted && { accepted: [...accepted] }),
    })
  }

  warn(rowNumber: number, field: string, kind: RowWarningKind, raw: string, accepted?: readonly string[]): void {
    this.warnings.push({
      rowNumber,
      field,
      column: this.columnOf[field] ?? null,
      kind,
      raw,
      ...(accepted && { accepted: [...accepted] }),
    })
  }

  finish(
    row: { rowNumber: number; rowKey: string },
    outcome: RowOutcome['outcome'],
    noun: ImportedNoun,
    nounId: string | null,
  ): void {
    this.outcomes.push({ rowNumber: row.rowNumber, rowKey: row.rowKey, outcome, noun, nounId })
  }

  move(
    movement: Omit<PlannedMovement, 'fromPlaceId' | 'toPlaceId' | 'toOwnerId' | 'wholeDelta' | 'partDeltaStrandTenths'> &
      Partial<PlannedMovement>,
  ): void {
    this.movements.push({
      wholeDelta: 0,
      partDeltaStrandTenths: 0,
      fromPlaceId: null,
      toPlaceId: null,
      toOwnerId: null,
      ...movement,
    })
  }

  ownerNamed(name: string, rowNumber: number): string {
    return this.named('owner', name, () =>
      this.add(
        'owner',
        { name, kind: this.list('owner').length === 0 ? 'own' : /\b(?:shop|store)\b/iu.test(name) ? 'shop' : 'person' },
        rowNumber,
      ),
    )
  }

  makerNamed(name: string, rowNumber: number): string {
    return this.named('maker', name, () => this.add('maker', { name }, rowNumber))
  }

  findMaker(name: string): string | null {
    return this.idOf.get(nameKey('maker', name)) ?? null
  }

  designerNamed(name: string, rowNumber: number): string {
    return this.named('designer', name, () => this.add('designer', { name }, rowNumber))
  }

  themeNamed(axis: ThemeAxis, name: string, rowNumber: number): string {
    return this.named(axis, name, () => this.add('theme', { axis, name }, rowNumber))
  }

  findPlace(label: string): string | null {
    return this.meantBy(label) ?? this.idOf.get(nameKey('place', label)) ?? null
  }

  /** The label of the place that an old label means now; null when the label is on a place, or nobody knows it. */
  nowLabelled(label: string): string | null {
    const id = this.meantBy(label)
    const now = id === null ? null : this.get('place', id).label
    return now === null || textKey(now) === textKey(label) ? null : now
  }

  /**
   * The place of that label, or the one an old label means now, with a warning; made when there is none, and brought back when it is gone.
   *
   * @param field  where the row names it
   */
  placeLabelled(label: string, rowNumber: number, field: 'label' | 'inside' | 'place' | 'nowAt'): string {
    const now = this.nowLabelled(label)
    if (now !== null) {
      this.warn(rowNumber, field, 'old-label', label, [now])
      return this.findPlace(now) as string
    }
    const id = this.named('place', label, () =>
      this.add(
        'place',
        {
          label,
          kind: kindOfLabel(label),
          parentId: null,
          name: null,
          walkOrder: null,
          capacity: null,
          note: null,
          isGone: false,
        },
        rowNumber,
      ),
    )
    this.change('place', id, { isGone: false }, rowNumber)
    return id
  }

  /** The place that has this label, else the one its former place became. */
  private meantBy(label: string): string | null {
    const id = this.idOf.get(nameKey('place', label))
    return id !== undefined && !this.get('place', id).isGone ? id : (this.formerOf.get(textKey(label)) ?? null)
  }

  /** All operations, each after those it speaks of: by noun, and a place after the place it is in. */
  listOperations(): ImportOperation[] {
    const all = [...this.operations.values()]
    const depth = (operation: ImportOperation): number => {
      let steps = 0
      if (operation.noun !== 'place') return 0
      for (let at: string | null = operation.id; at !== null; at = this.get('place', at).parentId) steps++
      return steps
    }
    return all
      .map((operation, index) => ({ operation, noun: importedNouns.indexOf(operation.noun), depth: depth(operation), index }))
      .sort((left, right) => left.noun - right.noun || left.depth - right.depth || left.index - right.index)
      .map(({ operation }) => operation)
  }

  private named(what: 'owner' | 'maker' | 'designer' | 'place' | ThemeAxis, name: string, make: () => string): string {
    const key = nameKey(what, name)
    const known = this.idOf.get(key)
    if (known !== undefined) return known
    const id = make()
    this.idOf.set(key, id)
    return id
  }
}

const nameKey = (what: string, name: string): string => `${what} ${textKey(name)}`

const isSame = (left: unknown, right: unknown): boolean =>
  left === right || (typeof left === 'object' && typeof right === 'object' && canonicalJson(left) === canonicalJson(right))

/** "Bag K-07" and "Box 3" say what they are; any other label is a drawer until somebody says otherwise. */
function kindOfLabel(label: string): PlaceKind {
  const words = textKey(label).split(/[^\p{L}]+/u)
  return givenPlaceKinds.find((kind) => words.includes(kind)) ?? 'drawer'
}
