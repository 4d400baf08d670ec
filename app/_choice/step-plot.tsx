import s from './choice.module.css'

type StepPlotProps = {
  label: string
  /** From left to right; `at` is the limit, `value` what it brings. */
  steps: readonly { at: number; value: number; words: string; isMarked: boolean }[]
}

/** The drawing's own size; it is drawn as wide as there is room. */
const size = { width: 360, height: 170 }
const edge = { left: 38, right: 14, top: 18, bottom: 30 }

/** A line that goes up in steps, the figures at its corners. */
export function StepPlot({ label, steps }: StepPlotProps) {
  const [first, last] = [steps[0], steps.at(-1)]
  if (!first || !last || last.at === first.at) return null
  const most = Math.max(1, ...steps.map(({ value }) => value))
  const across = (at: number) => edge.left + ((at - first.at) / (last.at - first.at)) * (size.width - edge.left - edge.right)
  const up = (value: number) => size.height - edge.bottom - (value / most) * (size.height - edge.top - edge.bottom)
  const path = steps.map(
    ({ at, value }, step) => `${step === 0 ? 'M' : 'H'}${across(at)}${step === 0 ? ` ${up(value)}` : `V${up(value)}`}`,
  )
  return (
    <svg className={s.plot} viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={label}>
      <path className={s.axis} d={`M${edge.left} ${edge.top}V${up(0)}H${size.width - edge.right}`} />
      <text x={edge.left - 6} y={up(0)} textAnchor="end">
        0
      </text>
      <text x={edge.left - 6} y={up(most) + 4} textAnchor="end">
        {most}
      </text>
      <path className={s.steps} d={path.join('')} />
      {steps.map(({ at, value, isMarked }) => (
        <circle
          key={at}
          className={s.dot}
          data-asked={isMarked || undefined}
          cx={across(at)}
          cy={up(value)}
          r={isMarked ? 5 : 3}
        />
      ))}
      <text x={edge.left} y={size.height - 8}>
        {first.words}
      </text>
      <text x={size.width - edge.right} y={size.height - 8} textAnchor="end">
        {last.words}
      </text>
    </svg>
  )
}
