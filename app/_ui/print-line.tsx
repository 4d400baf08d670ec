import type { ReactNode } from 'react'
import s from './print-line.module.css'

/** A line that stands only on paper: whose list it is and of which day, or the filters as a sentence. */
export function PrintLine({ children }: { children: ReactNode }) {
  return <p className={s.line}>{children}</p>
}
