'use client'

import { createContext, type ReactNode, useContext, useId, useState } from 'react'
import s from './unfold.module.css'

type UnfoldState = { id: string; isOpen: boolean; toggle: () => void }

const UnfoldContext = createContext<UnfoldState | null>(null)

function useUnfold(): UnfoldState {
  const state = useContext(UnfoldContext)
  if (!state) throw new TypeError('useUnfold: no UnfoldGroup around it')
  return state
}

/** Ties a button and what it unfolds where the two stand apart, as in two rows of a table. Draws nothing itself. */
export function UnfoldGroup({ isOpenAtFirst = false, children }: { isOpenAtFirst?: boolean; children: ReactNode }) {
  const id = useId()
  const [isOpen, setIsOpen] = useState(isOpenAtFirst)
  return <UnfoldContext value={{ id, isOpen, toggle: () => setIsOpen(!isOpen) }}>{children}</UnfoldContext>
}

export function UnfoldButton({ children, label }: { children: ReactNode; label?: string }) {
  const { id, isOpen, toggle } = useUnfold()
  return (
    <button type="button" className={s.button} aria-expanded={isOpen} aria-controls={id} aria-label={label} onClick={toggle}>
      {children}
      <svg className={s.arrow} viewBox="0 0 11 7" width="10" height="7" aria-hidden="true">
        <path d="m1 1 4.5 4.5L10 1" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />
      </svg>
    </button>
  )
}

// Said outright, for `display` takes a row's own role away where a table is stacked.
const rowRole = { role: 'row' } as const
const cellRole = { role: 'cell' } as const

/** A row of a table that its group's button unfolds. */
export function UnfoldRow({ columns, className, children }: { columns: number; className?: string; children: ReactNode }) {
  const { id, isOpen } = useUnfold()
  return (
    <tr id={id} {...rowRole} className={className} data-unfolded={isOpen}>
      <td {...cellRole} colSpan={columns}>
        {children}
      </td>
    </tr>
  )
}

/** A button and, under it, what it unfolds. */
export function Unfold({ label, isOpenAtFirst, children }: { label: ReactNode; isOpenAtFirst?: boolean; children: ReactNode }) {
  return (
    <UnfoldGroup isOpenAtFirst={isOpenAtFirst}>
      <UnfoldButton>{label}</UnfoldButton>
      <UnfoldRegion>{children}</UnfoldRegion>
    </UnfoldGroup>
  )
}

export function UnfoldRegion({ children }: { children: ReactNode }) {
  const { id, isOpen } = useUnfold()
  return (
    <div id={id} className={s.region} data-unfolded={isOpen}>
      {children}
    </div>
  )
}
