'use client'

import type { ReactNode } from 'react'
import { LongList } from '../_listing/long-list'
import type { ProjectsWindowProps } from './projects-window'

const load = () => import('./projects-window').then(({ ProjectsWindow }) => ProjectsWindow)

/** The projects found: a page of them, and at a desk all of them. */
export const ProjectsList = (list: { isLong: boolean; props: ProjectsWindowProps; children: ReactNode }) => (
  <LongList load={load} {...list} />
)
