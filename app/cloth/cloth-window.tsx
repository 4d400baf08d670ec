'use client'

import { useMemo } from 'react'
import { WindowLedger, type WindowListProps } from '../_listing/window-ledger'
import { type ClothColumnsAsked, type ClothRow, clothColumns, clothRowHref } from './cloth-columns'

export type ClothWindowProps = Omit<WindowListProps, 'onReady' | 'list'> & { columns: ClothColumnsAsked; caption: string }

const idOf = ({ id }: ClothRow) => id

export function ClothWindow({ columns: asked, ...list }: ClothWindowProps & { onReady: () => void }) {
  const { unit, longestUm, list: key } = asked
  const shown = asked.shown.join('.')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same columns come as another list with every drawing of the page
  const columns = useMemo(() => clothColumns(asked), [shown, unit, longestUm, key])
  return <WindowLedger {...list} list={key} columns={columns} rowId={idOf} rowHref={clothRowHref} even="low" />
}
