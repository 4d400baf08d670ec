/** Whole put-ups, pieces or copies; of thread also the part skein. */
export type Amount = { whole: number; partStrandTenths: number }

/** What there is so much of. */
export type StockNoun = 'batch' | 'cloth' | 'chart' | 'notion'

export type ConcernedNoun =
  | StockNoun
  | 'place'
  | 'project'
  | 'loan'
  | 'work'
  | 'label'
  | 'pair'
  | 'collection'
  | 'table'
  /** A file that is kept for a thing. */
  | 'kept-file'
  /** A file on the disk that nothing names. */
  | 'disk'

/** What a fault is about. `linkId` is what its page goes by: of a batch its thread's. */
export type Concerned = { noun: ConcernedNoun; id: string; name: string; linkId: string | null }

/** What can be wrong with a collection, with the facts it is told by. */
export type FaultFacts =
  | { kind: 'stock-differs'; noun: StockNoun; held: Amount; journal: Amount; isGone: boolean }
  | { kind: 'below-nothing'; noun: StockNoun; held: Amount }
  /** It is marked as gone and holds thread all the same. */
  | { kind: 'gone-holds'; held: Amount; journal: Amount }
  /** It lives, or lies, in a place that was taken away; the labels of those that were. */
  | { kind: 'in-gone-place'; home: string | null; current: string | null }
  | { kind: 'out-differs'; isAway: boolean }
  | { kind: 'place-in-circle'; labels: string[] }
  | { kind: 'place-in-gone-place'; inside: string }
  | { kind: 'place-path-differs' }
  | { kind: 'bag-gone'; label: string }
  | { kind: 'promise-closed'; promiseId: string; project: string; status: string; isGone: boolean }
  /** What is promised of a batch is not there for all of them. The projects in whose turn nothing, or not all, is left. */
  | {
      kind: 'promise-beyond'
      projects: string[]
      why: 'gone' | 'other-owner' | 'not-enough'
      /** What each of them can keep. */
      promises: { promiseId: string; keepsStrandTenths: number }[]
    }
  | { kind: 'lent-elsewhere'; lineId: string; withWhom: string; why: 'gone' | 'at-home' | 'elsewhere' }
  | { kind: 'lent-twice'; withWhom: string[]; lineIds: string[] }
  | { kind: 'lender-gone'; withWhom: string }
  | { kind: 'unlent-with-somebody'; withWhom: string }
  | { kind: 'looked-for-here'; askedId: string; isGone: boolean }
  | { kind: 'looked-for-twice'; askedIds: string[] }
  | { kind: 'put-back-twice'; walks: string[] }
  | { kind: 'cut-twice'; thread: string; bag: number }
  | { kind: 'cut-beyond'; thread: string; bag: number; quantity: number }
  | { kind: 'work-below-nothing'; stitchesDone: number; hoursTenths: number }
  | { kind: 'work-no-day'; day: string }
  | { kind: 'occasion-gone'; occasionKey: string }
  | { kind: 'label-of-nothing'; text: string }
  | { kind: 'told-apart-gone' }
  | { kind: 'revision-behind'; revision: number; latest: number }
  | { kind: 'broken-links'; column: string; names: string; count: number }
  | { kind: 'rule-broken'; says: string }
  | { kind: 'database-damaged'; says: string }
  | { kind: 'file-missing'; table: string; column: string; file: string; folder: 'photos' | 'files' }
  | { kind: 'thumb-missing'; file: string }
  | { kind: 'file-unnamed'; bytes: number }
  | { kind: 'half-written'; bytes: number }
  | { kind: 'staged-old'; bytes: number }
  | { kind: 'snapshot-differs'; lists: number; of: number }
  | { kind: 'answers-differ'; designs: number; of: number }

export const faultKinds = [
  'stock-differs',
  'below-nothing',
  'gone-holds',
  'in-gone-place',
  'out-differs',
  'place-in-circle',
  'place-in-gone-place',
  'place-path-differs',
  'bag-gone',
  'promise-closed',
  'promise-beyond',
  'lent-elsewhere',
  'lent-twice',
  'lender-gone',
  'unlent-with-somebody',
  'looked-for-here',
  'looked-for-twice',
  'put-back-twice',
  'cut-twice',
  'cut-beyond',
  'work-below-nothing',
  'work-no-day',
  'occasion-gone',
  'label-of-nothing',
  'told-apart-gone',
  'revision-behind',
  'broken-links',
  'rule-broken',
  'database-damaged',
  'file-missing',
  'thumb-missing',
  'file-unnamed',
  'half-written',
  'staged-old',
  'snapshot-differs',
  'answers-differ',
] as const satisfies FaultFacts['kind'][]
export type FaultKind = FaultFacts['kind']
export type Fault = FaultFacts & {
  /** Tells it from every other fault of the same look. */
  id: string
  about: Concerned
}

/** What can be done about a fault. Each is asked for by a person; nothing is done by itself. */
export const repairs = [
  /** What the record says is true: a line in the journal makes it add up. */
  'trust-record',
  /** What the journal adds up to is true: the record is set to it. */
  'trust-journal',
  'set-to-nothing',
  'leave-gone-place',
  'set-out-since',
  'stand-higher',
  'write-path',
  'let-go',
  'tick-off',
  'close-question',
  'clear-name',
  'forget',
  'raise-revision',
  'clear-file',
  'bring-back',
  'draw-thumb',
  'set-aside',
  'drop-snapshot',
  'answer-anew',
] as const
export type Repair = (typeof repairs)[number]

/** `wrong` must not be; `mind` happens in a sound collection too, and is worth a look. */
export type Weight = 'wrong' | 'mind'

const minded = new Set<FaultKind>([
  // Stock that was promised may be used, lost or passed on: the project's own page says so as well.
  'promise-beyond',
  // A table brought in may say so.
  'unlent-with-somebody',
  'label-of-nothing',
  'told-apart-gone',
  'file-unnamed',
  'half-written',
  'staged-old',
])

export const weightOf = (kind: FaultKind): Weight => (minded.has(kind) ? 'mind' : 'wrong')

const isNothing = ({ whole, partStrandTenths }: Amount) => whole === 0 && partStrandTenths === 0
const isBelow = ({ whole, partStrandTenths }: Amount) => whole < 0 || partStrandTenths < 0

/** Whether a record can be set to what its journal adds up to: not below nothing, and of a piece of cloth not twice. */
function canTrustJournal({ noun, journal, isGone }: Extract<FaultFacts, { kind: 'stock-differs' }>): boolean {
  if (isGone || isBelow(journal)) return false
  return noun !== 'cloth' || journal.whole === 0
}

/** What can be done about a fault, the usual first; nothing where only a person can, or a backup. */
export function repairsOf(fault: FaultFacts): Repair[] {
  switch (fault.kind) {
    case 'stock-differs':
      if (isBelow(fault.held)) return canTrustJournal(fault) ? ['trust-journal'] : []
      return canTrustJournal(fault) ? ['trust-record', 'trust-journal'] : ['trust-record']
    case 'below-nothing':
    case 'gone-holds':
      return ['set-to-nothing']
    case 'in-gone-place':
    case 'bag-gone':
      return ['leave-gone-place']
    case 'out-differs':
      return ['set-out-since']
    case 'place-in-circle':
    case 'place-in-gone-place':
      return ['stand-higher']
    case 'place-path-differs':
      return ['write-path']
    case 'promise-closed':
    case 'promise-beyond':
      return ['let-go']
    case 'lent-elsewhere':
    case 'lent-twice':
      return ['tick-off']
    case 'looked-for-here':
    case 'looked-for-twice':
      return ['close-question']
    case 'occasion-gone':
      return ['clear-name']
    case 'label-of-nothing':
    case 'told-apart-gone':
      return ['forget']
    case 'revision-behind':
      return ['raise-revision']
    case 'file-missing':
      return ['bring-back', 'clear-file']
    case 'thumb-missing':
      return ['draw-thumb']
    case 'file-unnamed':
    case 'half-written':
    case 'staged-old':
      return ['set-aside']
    case 'snapshot-differs':
      return ['drop-snapshot']
    case 'answers-differ':
      return ['answer-anew']
    case 'lender-gone':
    case 'unlent-with-somebody':
    case 'put-back-twice':
    case 'cut-twice':
    case 'cut-beyond':
    case 'work-below-nothing':
    case 'work-no-day':
    case 'broken-links':
    case 'rule-broken':
    case 'database-damaged':
      return []
  }
}

/** The movement that makes a journal add up to what is held; null where it does. */
export function correctionTo(held: Amount, journal: Amount): { wholeDelta: number; partDeltaStrandTenths: number } | null {
  const by = { whole: held.whole - journal.whole, partStrandTenths: held.partStrandTenths - journal.partStrandTenths }
  return isNothing(by) ? null : { wholeDelta: by.whole, partDeltaStrandTenths: by.partStrandTenths }
}

export const isSameAmount = (a: Amount, b: Amount): boolean => correctionTo(a, b) === null
export const isBelowNothing = isBelow
export const isNoAmount = isNothing

/** A place as the tree is checked. */
export type TreePlace = { id: string; label: string; parentId: string | null; path: string; isGone: boolean }

export type TreeFault =
  | { kind: 'place-in-circle'; placeId: string; labels: string[] }
  | { kind: 'place-in-gone-place'; placeId: string; inside: string }
  | { kind: 'place-path-differs'; placeId: string }

/**
 * What is wrong with the tree of places that stand: places inside one another in a circle, told once by the least of their ids; places inside
 * one that was taken away; and paths that are not their parent's and their own id. One that is told for the first or second is not told for
 * its path too.
 */
export function faultsOfTree(places: ReadonlyMap<string, TreePlace>): TreeFault[] {
  const faults: TreeFault[] = []
  const state = new Map<string, 'open' | 'done'>()
  const inCircle = new Set<string>()
  for (const start of places.values()) {
    const walked: TreePlace[] = []
    let at: TreePlace | undefined = start
    while (at && !state.has(at.id)) {
      state.set(at.id, 'open')
      walked.push(at)
      at = at.parentId === null ? undefined : places.get(at.parentId)
    }
    if (at && state.get(at.id) === 'open') {
      const circle = walked.slice(walked.indexOf(at))
      for (const { id } of circle) inCircle.add(id)
      const first = circle.reduce((least, place) => (place.id < least.id ? place : least))
      const turned = [...circle.slice(circle.indexOf(first)), ...circle.slice(0, circle.indexOf(first))]
      if (circle.some(({ isGone }) => !isGone))
        faults.push({ kind: 'place-in-circle', placeId: first.id, labels: turned.map(({ label }) => label) })
    }
    for (const { id } of walked) state.set(id, 'done')
  }
  for (const place of places.values()) {
    if (place.isGone || inCircle.has(place.id)) continue
    const parent = place.parentId === null ? null : places.get(place.parentId)
    // One inside what is not there at all is a broken link, and told as that.
    if (parent === undefined) continue
    if (parent?.isGone) faults.push({ kind: 'place-in-gone-place', placeId: place.id, inside: parent.label })
    else if (place.path !== `${parent?.path ?? '/'}${place.id}/`) faults.push({ kind: 'place-path-differs', placeId: place.id })
  }
  return faults
}

/** The place a repaired one is put into: the nearest above it that stands; null is the top. */
export function standingAbove(places: ReadonlyMap<string, TreePlace>, placeId: string): string | null {
  const seen = new Set([placeId])
  let at = places.get(placeId)?.parentId ?? null
  while (at !== null && !seen.has(at)) {
    seen.add(at)
    const place = places.get(at)
    if (!place) return null
    if (!place.isGone) return at
    at = place.parentId
  }
  return null
}

/** The paths a branch has to have, from its own place down; those that are others now. */
export function pathsToWrite(
  places: ReadonlyMap<string, TreePlace>,
  top: { id: string; parentId: string | null },
): { id: string; path: string }[] {
  const children = new Map<string, string[]>()
  for (const { id, parentId } of places.values())
    if (parentId !== null && id !== top.id) children.set(parentId, [...(children.get(parentId) ?? []), id])
  const above = top.parentId === null ? '/' : (places.get(top.parentId)?.path ?? '/')
  const changed: { id: string; path: string }[] = []
  const left = [{ id: top.id, path: `${above}${top.id}/` }]
  for (let one = left.pop(); one; one = left.pop()) {
    const { id, path } = one
    if (places.get(id)?.path !== path) changed.push(one)
    for (const child of children.get(id) ?? []) left.push({ id: child, path: `${path}${child}/` })
  }
  return changed
}
