/** Why a thread, its line or a stand-in was not written. */
export type ThreadRefusal =
  | { kind: 'no-such-thread'; threadId: string }
  | { kind: 'no-such-line'; lineId: string }
  | { kind: 'changed-meanwhile' }
  | { kind: 'code-taken'; threadId: string; code: string }
  | { kind: 'line-taken'; lineId: string; makerName: string; lineName: string }
  | { kind: 'strands-in-use'; batchCount: number; statedCount: number }
  | { kind: 'thread-in-use'; heldBatchCount: number; designCount: number }
  | { kind: 'stands-for-itself' }
  | { kind: 'stand-in-known' }
  | { kind: 'no-such-stand-in' }
