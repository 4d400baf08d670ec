'use client'

import type { ReactNode } from 'react'
import { LongList } from '../_listing/long-list'
import type { NotionsWindowProps } from './notions-window'

const load = () => import('./notions-window').then(({ NotionsWindow }) => NotionsWindow)

/** The notions found: a page of them, and at a desk all of them. */
export const NotionsList = (list: { isLong: boolean; props: NotionsWindowProps; children: ReactNode }) => (
  <LongList load={load} {...list} />
)
