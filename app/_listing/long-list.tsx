'use client'

import { type ComponentType, type ReactNode, useEffect, useState } from 'react'
import { flushSync } from 'react-dom'
import './came-back'
import s from './long-list.module.css'

/** As wide as a table stands as one: app/_ui/ledger.module.css. */
const wide = 'screen and (min-width: 52.0625rem)'

type LongListProps<Props> = {
  /** Fetches what draws the window; asked only where it is of use. */
  load: () => Promise<ComponentType<Props & { onReady: () => void }>>
  /** For the window. */
  props: Props
  /** There is more of it than the page holds. */
  isLong: boolean
  /** The first page of it as the server drew it, with its pager: all there is on a phone, on paper and without scripts. */
  children: ReactNode
}

/** A list that is a page of a table, and at a desk all of it, scrolled. */
export function LongList<Props extends { rowsAddress: string; revision: number }>({
  load,
  props,
  isLong,
  children,
}: LongListProps<Props>) {
  const [Window, setWindow] = useState<ComponentType<Props & { onReady: () => void }> | null>(null)
  const [isWide, setIsWide] = useState(false)
  // Another filter is another list: until its rows are there, the page the server drew serves again.
  const [readyFor, setReadyFor] = useState<string | null>(null)
  const list = `${props.rowsAddress} ${props.revision}`
  const isReady = readyFor === list
  const [isPrinting, setIsPrinting] = useState(false)
  useEffect(() => {
    if (!isLong) return
    const query = matchMedia(wide)
    const look = () => {
      setIsWide(query.matches)
      // Not there (an older build, no network): the pages serve.
      if (query.matches)
        load().then(
          (loaded) => setWindow(() => loaded),
          () => {},
        )
      else setReadyFor(null)
    }
    look()
    query.addEventListener('change', look)
    return () => query.removeEventListener('change', look)
  }, [isLong, load])
  const isOn = isLong && isWide && Window !== null
  // Paper gets the page of it, whole: a window would be printed as it stands.
  useEffect(() => {
    if (!isOn) return
    const begin = () => flushSync(() => setIsPrinting(true))
    const end = () => setIsPrinting(false)
    addEventListener('beforeprint', begin)
    addEventListener('afterprint', end)
    return () => {
      removeEventListener('beforeprint', begin)
      removeEventListener('afterprint', end)
    }
  }, [isOn])
  return (
    <>
      {isOn && (
        <div className={s.window}>
          <Window {...props} onReady={() => setReadyFor(list)} />
        </div>
      )}
      {(!isOn || !isReady || isPrinting) && <div className={isOn && isReady ? s.page : undefined}>{children}</div>}
    </>
  )
}
