import 'server-only'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { KeptByRecord } from '../place/refuse-kept-by-record'

/** A project that stands in the way, by what it is worked from. */
export type WorkingProject = { id: string; title: string; status: ProjectStatus }

/** A chart of the same title that is held already. */
export type HeldNamesake = { id: string; title: string; ownerName: string; copies: number; placeLabel: string | null }

/** A thread that is not on record yet, and what else would be new with it. */
export type NewThread = {
  makerName: string
  lineName: string
  code: string
  isNewMaker: boolean
  isNewLine: boolean
  /** Codes of the line that could be mistaken for it. */
  closeCodes: string[]
}

/** Why a chart, one of its designs or a thread list was not written. */
export type ChartRefusal =
  | { kind: 'changed-meanwhile' }
  | { kind: 'no-such-owner'; ownerId: string }
  | { kind: 'title-held'; charts: HeldNamesake[] }
  | { kind: 'is-a-file' }
  | { kind: 'is-lending'; label: string }
  | KeptByRecord
  | { kind: 'already-there' }
  | { kind: 'no-home' }
  | { kind: 'in-work'; projects: WorkingProject[] }
  /** It is part of another chart now: that merge is to be taken back. */
  | { kind: 'merged-into'; chartId: string; title: string }
  | { kind: 'no-such-chart' }
  | { kind: 'no-such-design' }
  | { kind: 'design-taken'; title: string }
  | { kind: 'only-design' }
  | { kind: 'design-worked'; projects: WorkingProject[] }
  | { kind: 'list-taken'; name: string }
  | { kind: 'which-line'; lineNumber: number; makerName: string; code: string; lineNames: string[] }
  | { kind: 'new-threads'; threads: NewThread[] }
