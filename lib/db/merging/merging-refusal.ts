import 'server-only'
import type { MergedTable } from './keep-steps'
import type { MergedNoun } from './merging'

/** Why two things were not made one, or one not two again. */
export type MergingRefusal =
  | { kind: 'no-such-thing'; noun: MergedNoun; id: string }
  | { kind: 'same-thing' }
  | { kind: 'changed-meanwhile' }
  /** Goods of two owners are never mixed: one is to be passed on first. */
  | { kind: 'other-owner'; ownerName: string; otherOwnerName: string }
  /** A file is no copy on paper. */
  | { kind: 'file-and-paper' }
  /** A copy is taken somewhere without a loan: it could not be told from the others any more. */
  | { kind: 'is-out'; title: string; label: string }
  | { kind: 'is-missing'; title: string }
  /** Lengths are kept in lengths of one strand. */
  | { kind: 'strands-differ'; strands: number; otherStrands: number }
  /** Lines are merged within their maker, or with the makers. */
  | { kind: 'other-maker' }
  | { kind: 'no-such-merging'; id: string }
  | { kind: 'already-undone'; id: string }
  /** Something the merge wrote is no longer as it left it. */
  | { kind: 'changed-since'; table: MergedTable }
