'use client'

import { useMemo } from 'react'
import { WindowLedger, type WindowListProps } from '../_listing/window-ledger'
import { type ProjectColumnsAsked, type ProjectListRow, projectColumns, projectHref } from './project-columns'

export type ProjectsWindowProps = Omit<WindowListProps, 'onReady' | 'list'> & { columns: ProjectColumnsAsked; caption: string }

const idOf = ({ id }: ProjectListRow) => id

export function ProjectsWindow({ columns: asked, ...list }: ProjectsWindowProps & { onReady: () => void }) {
  const { today, list: key } = asked
  const shown = asked.shown.join('.')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same columns come as another list with every drawing of the page
  const columns = useMemo(() => projectColumns(asked), [shown, today, key])
  return <WindowLedger {...list} list={key} columns={columns} rowId={idOf} rowHref={projectHref} even="high" />
}
