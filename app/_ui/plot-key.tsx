import { useId } from 'react'
import s from './plot.module.css'
import { type PlotFill, PlotFills, paintOf } from './plot-fills'

export type PlotKeyItem =
  | { kind: 'fill'; name: string; fill: PlotFill }
  | { kind: 'line'; name: string; isDashed: boolean }
  | { kind: 'mark'; name: string }

/** What the shapes of a drawing stand for. Nothing where there is nothing to tell apart. */
export function PlotKey({ items }: { items: readonly PlotKeyItem[] }) {
  const id = useId()
  if (items.length === 0) return null
  return (
    <ul className={s.key}>
      {items.map((item) => (
        <li key={item.name}>
          <svg width="26" height="14" aria-hidden="true">
            <PlotFills id={id} />
            {item.kind === 'fill' && <rect x="1" y="1" width="24" height="12" className={s.bar} fill={paintOf(id, item.fill)} />}
            {item.kind === 'line' && (
              <path d="M0 7h26" className={s.level} strokeDasharray={item.isDashed ? 'var(--dash-long)' : undefined} />
            )}
            {item.kind === 'mark' && <circle cx="13" cy="7" r="3" className={s.mark} />}
          </svg>
          {item.name}
        </li>
      ))}
    </ul>
  )
}
