import 'server-only'
import type { LoanKind } from '#lib/loan/loan'
import type { PlaceKind, peopleKinds } from '#lib/place/place'
import { isPeople } from '#lib/place/place'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { findMeant } from '../place/look-up-label'
import { readProject } from '../project/project-row'
import { hasOwner } from '../stock/change-batch'
import type { Write } from '../write-gate'
import { type ChartAway, readClashes } from './clashes'
import { handOver, type LoanThing } from './hand-over'
import type { LoanRefusal } from './loan-refusal'

/** What one agrees on, whatever kind of loan it is. Days are yyyy-mm-dd. */
export type LoanInput = {
  /** Whose hands it goes to, or comes from: a name that is new becomes a place of that kind. */
  withLabel: string
  withKind: (typeof peopleKinds)[number]
  ownerId: string
  reason: string
  fromOn: string
  dueOn: string | null
  note: string | null
  things: readonly LoanThing[]
  /** Lent though somebody means to stitch from it meanwhile. */
  acceptsClash?: boolean
  who?: string | null
}

/**
 * Set a loan down and hand its things over, all or none of them.
 *
 * @param terms.keptPlaceId  for what is borrowed of another owner of this collection: where it is kept meanwhile
 */
export async function openLoan(
  open: Write,
  input: LoanInput,
  terms: { kind: LoanKind; projectId: string | null; priceMinor: number | null; keptPlaceId: string | null },
): Promise<Result<{ loanId: string }, LoanRefusal>> {
  const { tx } = open
  const { ownerId, reason, fromOn, dueOn, note, things, who = null } = input
  if (things.length === 0) return refused({ kind: 'nothing-in-it' })
  if (terms.kind === 'lend' && dueOn === null) return refused({ kind: 'no-due-day' })
  if (dueOn !== null && dueOn < fromOn) return refused({ kind: 'due-before', fromOn })
  if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
  const place = await ensurePerson(open, input)
  if (!place.ok) return place

  const project = terms.projectId === null ? null : await readProject(tx, { projectId: terms.projectId })
  if (project && !project.ok) return refused({ kind: 'no-such-thing', noun: 'project', id: terms.projectId ?? '' })
  const hand = {
    ownerId,
    kind: terms.kind,
    toPlaceId: terms.kind === 'borrow' ? terms.keptPlaceId : place.value,
    projectId: terms.projectId,
    bagPlaceId: project?.value.placeId ?? null,
    reason,
    who,
    since: fromOn < calendarDay(open.at) ? new Date(`${fromOn}T12:00:00`) : open.at,
  }
  const lines: { data: object; count: number }[] = []
  const away: ChartAway[] = []
  const seen = new Set<string>()
  for (const thing of things) {
    const handed = await handOver(open, thing, hand)
    if (!handed.ok) return handed
    const { key, name, line, count, leavesNone } = handed.value
    if (seen.has(key)) return refused({ kind: 'said-twice', name })
    if (thing.noun !== 'text') seen.add(key)
    lines.push({ data: line, count })
    if (thing.noun === 'chart' && leavesNone) away.push({ chartId: thing.id, fromOn, untilOn: dueOn })
  }
  if (terms.kind !== 'borrow' && !input.acceptsClash) {
    const clashes = await readClashes(tx, away, { exceptProjectId: terms.projectId })
    if (clashes.length > 0) return refused({ kind: 'clash', clashes })
  }

  const loanId = newId()
  const { kind, projectId, priceMinor } = terms
  await tx.loan.create({
    data: { ...{ id: loanId, kind, placeId: place.value, ownerId, reason, fromOn, dueOn }, projectId, priceMinor, note, who },
  })
  await tx.loanLine.createMany({
    data: lines.map(({ data, count }, position) => ({ id: newId(), loanId, position, count, ...data })),
  })
  return ok({ loanId })
}

/** The place that is that person, made when the name is new. What is known as a drawer is nobody. */
async function ensurePerson(
  open: Write,
  { withLabel, withKind }: Pick<LoanInput, 'withLabel' | 'withKind'>,
): Promise<Result<string, LoanRefusal>> {
  const known = await findMeant(withLabel, open.tx)
  if (!known) return ok(await ensurePlace(open, withLabel, { kind: withKind }))
  return isPeople(known.kind as PlaceKind) ? ok(known.id) : refused({ kind: 'not-a-person', label: known.label })
}
