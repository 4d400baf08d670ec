'use client'

import { useMemo } from 'react'
import { WindowLedger, type WindowListProps } from '../_listing/window-ledger'
import { type NotionColumnsAsked, type NotionRow, notionColumns, notionRowHref } from './notion-columns'

export type NotionsWindowProps = Omit<WindowListProps, 'onReady' | 'list'> & { columns: NotionColumnsAsked; caption: string }

const idOf = ({ id }: NotionRow) => id

export function NotionsWindow({ columns: asked, ...list }: NotionsWindowProps & { onReady: () => void }) {
  const { list: key } = asked
  const shown = asked.shown.join('.')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same columns come as another list with every drawing of the page
  const columns = useMemo(() => notionColumns(asked), [shown, key])
  return <WindowLedger {...list} list={key} columns={columns} rowId={idOf} rowHref={notionRowHref} even="low" />
}
