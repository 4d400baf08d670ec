'use client'

import { createContext, useContext } from 'react'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { SentCorrection } from '../../../_reading/correction-schema'
import type { ReviewShown } from '../../../_reading/review-shown'

/** What every part of a review knows and can do. */
export type Desk = {
  shown: ReviewShown
  units: { thread: ThreadLengthUnit; cloth: LengthUnit }
  correct: (corrections: readonly SentCorrection[]) => Promise<void>
  undo: () => Promise<void>
  /** To the next field to be looked at. */
  moveOn: (from: Element, step?: 1 | -1) => void
  /** Mark the source lines a field was read from. */
  setActive: (sourceLines: readonly number[]) => void
  isActive: (sourceLine: number) => boolean
  /** Places, as "0.0.3", of lines that followed the last correction. */
  followed: ReadonlySet<string>
}

export const DeskContext = createContext<Desk | null>(null)

/** @throws {TypeError} outside a review. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext)
  if (!desk) throw new TypeError('useDesk: no review around it')
  return desk
}
