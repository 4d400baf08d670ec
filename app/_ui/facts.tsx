import type { ReactNode } from 'react'
import s from './facts.module.css'

export type Fact = {
  label: string
  /** The label with its meaning to be had. */
  word?: ReactNode
  value: ReactNode
}

type FactsProps = {
  items: readonly Fact[]
  /** One below the other, for facts of several words; a strip of short ones else. */
  isStacked?: boolean
}

/** Facts ruled off from one another. */
export function Facts({ items, isStacked = false }: FactsProps) {
  return (
    <dl className={isStacked ? s.stacked : s.facts}>
      {items.map((item) => (
        <div key={item.label}>
          <dt>{item.word ?? item.label}</dt>
          <dd>{item.value}</dd>
        </div>
      ))}
    </dl>
  )
}
