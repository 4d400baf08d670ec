import 'server-only'
import type { Clash } from '#lib/loan/clash'
import type { ProjectStatus } from '#lib/project/life-cycle'

/** A project that wants the chart while it is away. `plannedOn` is null for what is being stitched now. */
export type LoanClash = {
  projectId: string
  title: string
  ownerName: string
  status: ProjectStatus
  plannedOn: string | null
  clash: Clash
}

/** Why a loan was not written. `name` is what the thing is called. */
export type LoanRefusal =
  | { kind: 'changed-meanwhile' }
  | { kind: 'no-such-owner'; ownerId: string }
  | { kind: 'no-such-thing'; noun: string; id: string }
  | { kind: 'not-a-person'; label: string }
  | { kind: 'nothing-in-it' }
  | { kind: 'said-twice'; name: string }
  | { kind: 'due-before'; fromOn: string }
  | { kind: 'no-due-day' }
  | { kind: 'is-a-file'; name: string }
  | { kind: 'no-home'; name: string }
  | { kind: 'is-out'; name: string; placeLabel: string }
  | { kind: 'not-so-many'; name: string; atHome: number }
  | { kind: 'promised'; name: string }
  | { kind: 'kept'; name: string; title: string }
  | { kind: 'in-use'; name: string; title: string }
  | { kind: 'other-owner'; name: string }
  | { kind: 'own-thing'; name: string }
  | { kind: 'not-kept-anywhere'; name: string }
  | { kind: 'clash'; clashes: LoanClash[] }
  | { kind: 'no-such-loan'; loanId: string }
  | { kind: 'closed' }
  | { kind: 'no-such-line' }
  | { kind: 'back-before'; fromOn: string }
  | { kind: 'where-is-work'; name: string }
