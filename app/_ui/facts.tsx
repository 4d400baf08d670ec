import type { ReactNode } from 'react'
import s from './facts.module.css'

export type Fact = { label: string; value: ReactNode }

/** A ruled strip of short facts. */
export function Facts({ items }: { items: readonly Fact[] }) {
  return (
    <dl className={s.facts}>
      {items.map((item) => (
        <div key={item.label}>
          <dt>{item.label}</dt>
          <dd>{item.value}</dd>
        </div>
      ))}
    </dl>
  )
}
