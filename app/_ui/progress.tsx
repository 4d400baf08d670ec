import { type ReactNode, useId } from 'react'
import s from './progress.module.css'

type ProgressProps = {
  label: string
  done: number
  /** Left out while how much there is to do is not known. */
  of?: number
  /** The figures in words: "4,210 of 20,000 rows". */
  note: ReactNode
  /** A button that stops it. */
  stop?: ReactNode
}

export function Progress({ label, done, of, note, stop }: ProgressProps) {
  const id = useId()
  return (
    <div className={s.progress}>
      <label htmlFor={id}>{label}</label>
      <progress id={id} value={of === undefined ? undefined : done} max={of} />
      <p role="status">{note}</p>
      {stop && <div className={s.stop}>{stop}</div>}
    </div>
  )
}
