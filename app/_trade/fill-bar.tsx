import { say } from '#language/say'
import s from './fill-bar.module.css'

type FillBarProps = {
  /** Full is 100; more is more than it takes. */
  percent: number
  /** A mark where filling should stop. */
  keepTo?: number
}

/** How full something is, as one bar beside its figure. */
export function FillBar({ percent, keepTo }: FillBarProps) {
  const x = (share: number) => Math.round(Math.min(Math.max(share, 0), 100) * 10)
  const isOver = percent > 100
  return (
    <span className={s.fill}>
      <svg className={s.bar} viewBox="0 0 1000 14" preserveAspectRatio="none" aria-hidden="true">
        <rect x="0" y="2" width={x(percent)} height="10" fill={isOver ? 'var(--madder)' : 'var(--ink)'} />
        <path
          d="M0 2h1000v10H0z"
          fill="none"
          stroke="var(--edge)"
          strokeWidth="var(--pen-line)"
          vectorEffect="non-scaling-stroke"
        />
        {keepTo !== undefined && (
          <path d={`M${x(keepTo)} 0v14`} stroke="var(--ink)" strokeWidth="var(--pen-level)" vectorEffect="non-scaling-stroke" />
        )}
      </svg>
      <span className={isOver ? 'do' : undefined}>{say('{percent, number} % full', { percent })}</span>
    </span>
  )
}
