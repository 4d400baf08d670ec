import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import s from './fill-gauge.module.css'

type FillGaugeProps = {
  here: number
  /** Away, its room kept. */
  out?: number
  capacity: number
  /** Where to stop filling, so that a run can grow. */
  keepTo?: number
  /** What is counted: compartments, charts. */
  noun?: string
}

/** More squares than this would be too small to tell apart on a phone. */
const mostSquares = 60

/** How full a place is: one square for each of a few dozen, one bar beyond that, with a mark at the chosen filling. */
export function FillGauge({ here, out = 0, capacity, keepTo, noun = 'compartments' }: FillGaugeProps) {
  const empty = Math.max(0, capacity - here - out)
  const words = [
    say('{here} of {capacity} {noun} filled', { here, capacity, noun }),
    out > 0 && say('{out} waiting for what is out', { out }),
    say('{empty} empty', { empty }),
    keepTo !== undefined && say('keep to {keepTo}', { keepTo }),
  ]
  const over = Math.max(0, here + out - capacity)
  if (over > 0) words.push(say('{over} more than it holds', { over }))
  const label = words.filter(Boolean).join(', ')
  return (
    <div className={s.gauge}>
      {capacity <= mostSquares ? (
        <div className={s.squares} role="img" aria-label={label}>
          {Array.from({ length: capacity }, (_, index) => (
            <i
              // biome-ignore lint/suspicious/noArrayIndexKey: a square is its place in the row
              key={index}
              data-is={index < here ? 'here' : index < here + out ? 'out' : 'empty'}
              data-mark={index === keepTo || undefined}
            />
          ))}
        </div>
      ) : (
        <svg className={s.bar} viewBox="0 0 1000 14" preserveAspectRatio="none" role="img" aria-label={label}>
          <rect x="0" y="2" width={share(here, capacity)} height="10" fill="var(--ink)" />
          <path
            d="M0 2h1000v10H0z"
            fill="none"
            stroke="var(--edge)"
            strokeWidth="var(--pen-line)"
            vectorEffect="non-scaling-stroke"
          />
          <path
            d={`M${share(here, capacity)} 2H${share(here + out, capacity)}v10H${share(here, capacity)}z`}
            fill="var(--paper)"
            stroke="var(--ink)"
            strokeWidth="var(--pen-line)"
            strokeDasharray="var(--dash)"
            vectorEffect="non-scaling-stroke"
          />
          {keepTo !== undefined && (
            <path
              d={`M${share(keepTo, capacity)} 0v14`}
              stroke="var(--ink)"
              strokeWidth="var(--pen-level)"
              vectorEffect="non-scaling-stroke"
            />
          )}
        </svg>
      )}
      <p className={s.key} aria-hidden="true">
        <span>
          <i data-is="here" /> {sayParts('{here} here', { here })}
        </span>
        {out > 0 && (
          <span>
            <i data-is="out" /> {sayParts('{out} out', { out })}
          </span>
        )}
        <span>
          <i data-is="empty" /> {sayParts('{empty} empty', { empty })}
        </span>
        {keepTo !== undefined && (
          <span>
            <i data-is="mark" /> {sayParts('keep to {keepTo}', { keepTo })}
          </span>
        )}
        {over > 0 && <span className="do">{sayParts('{over} more than it holds', { over })}</span>}
      </p>
    </div>
  )
}

const share = (count: number, capacity: number) => Math.round((Math.min(count, capacity) / Math.max(capacity, 1)) * 1000)
