'use client'

import { lazy, Suspense } from 'react'
import type { TourState } from './tour-state'

// Whoever asked for no errands loads none of it.
const TourStrip = lazy(() => import('./tour-strip').then((loaded) => ({ default: loaded.TourStrip })))

/** The errands, beside every screen for as long as they go on. */
export function TourWhenOn({ state }: { state: TourState }) {
  return (
    <Suspense fallback={null}>
      <TourStrip begun={state} />
    </Suspense>
  )
}
