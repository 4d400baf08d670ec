'use client'

import type { ReactNode } from 'react'
import { LongList } from '../_listing/long-list'
import type { ThreadsWindowProps } from './threads-window'

const load = () => import('./threads-window').then(({ ThreadsWindow }) => ThreadsWindow)

/** The threads found: a page of them, and at a desk all of them. */
export const ThreadsList = (list: { isLong: boolean; props: ThreadsWindowProps; children: ReactNode }) => (
  <LongList load={load} {...list} />
)
