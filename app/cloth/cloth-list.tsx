'use client'

import type { ReactNode } from 'react'
import { LongList } from '../_listing/long-list'
import type { ClothWindowProps } from './cloth-window'

const load = () => import('./cloth-window').then(({ ClothWindow }) => ClothWindow)

/** The cloth found: a page of it, and at a desk all of it. */
export const ClothList = (list: { isLong: boolean; props: ClothWindowProps; children: ReactNode }) => (
  <LongList load={load} {...list} />
)
