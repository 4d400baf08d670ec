import type { Stitch } from '#lib/thread/stitches'

/** What a column of a key's table holds. */
export const columnRoles = [
  'symbol',
  'code',
  'name',
  'maker',
  'thread line',
  'strands',
  'stitches',
  'backstitch',
  'put-ups',
  'length',
  'nothing',
] as const
export type ColumnRole = (typeof columnRoles)[number]

/** What holds for every line it touches, kept in order; the reading is read again with them. */
export type Lesson =
  /** Column `column` (from 0) of the lines from source line `fromLine` to `toLine`, both counted. */
  | { kind: 'column'; fromLine: number; toLine: number; column: number; means: ColumnRole }
  /** Threads for which the text gave this maker and line (null: none) are of these. */
  | { kind: 'maker'; was: { maker: string | null; threadLine: string | null }; maker: string; threadLine: string | null }
  /** A thread that is named so is that of the collection. */
  | { kind: 'thread'; maker: string | null; code: string | null; name: string | null; threadId: string }
  /** Lines that say no strands are worked with so many; of those worked in `stitch`, or all (null). */
  | { kind: 'strands'; stitch: Stitch | null; strands: number }

  /** Numbers without a word on source lines `fromLine` to `toLine` that were taken for `was` are `means`. */
  | { kind: 'numbers'; fromLine: number; toLine: number; was: NumberMeaning; means: NumberMeaning }

/** What a number without a word may count. */
export type NumberMeaning = 'strands' | 'stitches' | 'put-ups'
