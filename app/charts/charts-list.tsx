'use client'

import type { ReactNode } from 'react'
import { LongList } from '../_listing/long-list'
import type { ChartsWindowProps } from './charts-window'

const load = () => import('./charts-window').then(({ ChartsWindow }) => ChartsWindow)

/** The charts found: a page of them, and at a desk all of them. */
export const ChartsList = (list: { isLong: boolean; props: ChartsWindowProps; children: ReactNode }) => (
  <LongList load={load} {...list} />
)
