import type { ReactNode } from 'react'
import s from './steps.module.css'

/** Things to do one after another, numbered. */
export function Steps({ items, label }: { items: readonly ReactNode[]; label?: string }) {
  return (
    <ol className={s.steps} aria-label={label}>
      {items.map((item, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step is known by its number
        <li key={index}>
          <span aria-hidden="true" className={s.number}>
            {index + 1}
          </span>
          <div>{item}</div>
        </li>
      ))}
    </ol>
  )
}
