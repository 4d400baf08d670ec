'use client'

import { useMemo } from 'react'
import { WindowLedger, type WindowListProps } from '../_listing/window-ledger'
import { type ThreadColumnsAsked, threadColumns, threadHref } from './thread-columns'
import type { ThreadListRow } from './thread-rows'

export type ThreadsWindowProps = Omit<WindowListProps, 'onReady' | 'list'> & { columns: ThreadColumnsAsked; caption: string }

const idOf = ({ id }: ThreadListRow) => id

export function ThreadsWindow({ columns: asked, ...list }: ThreadsWindowProps & { onReady: () => void }) {
  const { unit, isByColour, list: key } = asked
  const shown = asked.shown.join('.')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same columns come as another list with every drawing of the page
  const columns = useMemo(() => threadColumns(asked), [shown, unit, isByColour, key])
  return <WindowLedger {...list} list={key} columns={columns} rowId={idOf} rowHref={threadHref} even="low" isTight />
}
