import type { ReactNode } from 'react'
import s from './list-tools.module.css'

/** Between a list's choices and its rows: what is chosen of it, and how it is shown. */
export const ListTools = ({ children }: { children: ReactNode }) => <div className={s.tools}>{children}</div>
