import 'server-only'
import type { KeptByRecord } from '../place/refuse-kept-by-record'

/** Why a notion was not written. */
export type NotionRefusal =
  | { kind: 'no-such-owner'; ownerId: string }
  | { kind: 'no-such-project'; projectId: string }
  /** It belongs to another owner than the project's. */
  | { kind: 'other-owner' }
  /** A project has it. */
  | { kind: 'in-use'; title: string }
  | { kind: 'not-enough'; count: number }
  | KeptByRecord
  | { kind: 'already-there' }
  | { kind: 'changed-meanwhile' }
