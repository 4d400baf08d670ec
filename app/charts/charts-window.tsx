'use client'

import { useMemo } from 'react'
import { WindowLedger, type WindowListProps } from '../_listing/window-ledger'
import { type ChartColumnsAsked, chartColumns, chartHref } from './chart-columns'
import type { ChartRow } from './chart-rows'

export type ChartsWindowProps = Omit<WindowListProps, 'onReady' | 'list'> & { columns: ChartColumnsAsked; caption: string }

const idOf = ({ id }: ChartRow) => id

export function ChartsWindow({ columns: asked, ...list }: ChartsWindowProps & { onReady: () => void }) {
  const { unit, longest, list: key, on } = asked
  const shown = asked.shown.join('.')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same columns come as another list with every drawing of the page
  const columns = useMemo(() => chartColumns(asked), [shown, unit, longest, key, on])
  return <WindowLedger {...list} list={key} columns={columns} rowId={idOf} rowHref={chartHref} even="high" />
}
