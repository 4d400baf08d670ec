import { scaleBand, scaleLinear } from 'd3-scale'
import { useId } from 'react'
import s from './plot.module.css'
import { type PlotFill, PlotFills, paintOf } from './plot-fills'
import { PlotKey, type PlotKeyItem } from './plot-key'

export type ColumnSeries = {
  name: string
  fill: PlotFill
  /** Below the line instead of above it. */
  isDown?: boolean
  /** One for each column, never less than nothing. */
  values: readonly number[]
}

type ColumnPlotProps = {
  /** What is heard instead of seen. */
  label: string
  /** In their order; `mark` puts a ring on the line, for a column that stands for something else than nothing. */
  columns: readonly { key: string; label: string; mark?: boolean }[]
  series: readonly ColumnSeries[]
  /** A level across all columns. */
  levels?: readonly { name: string; value: number; isDashed?: boolean }[]
  /** What the ring means. */
  markWords?: string
  figure?: (value: number) => string
}

const [top, plotHeight, foot] = [14, 190, 26]
/** So many words fit under the columns of a phone. */
const mostLabels = 7

/** Columns over time, with levels across them. It is as wide as there is room, its words and patterns as large as ever. */
export function ColumnPlot({ label, columns, series, levels = [], markWords, figure = String }: ColumnPlotProps) {
  const id = useId()
  const sumAt = (at: number, isDown: boolean) =>
    series.reduce((sum, one) => ((one.isDown ?? false) === isDown ? sum + (one.values[at] ?? 0) : sum), 0)
  const ups = columns.map((_, at) => sumAt(at, false))
  const downs = columns.map((_, at) => sumAt(at, true))
  const most = Math.max(1, ...ups, ...levels.map(({ value }) => value))
  const y = scaleLinear()
    .domain([-Math.max(0, ...downs), most])
    .nice(4)
    .range([top + plotHeight, top])
  const x = scaleBand<number>()
    .domain(columns.map((_, at) => at))
    .range([0, 100])
    .paddingInner(0.28)
    .paddingOuter(0.14)
  const ticks = y.ticks(4).filter(Number.isInteger)
  const every = Math.ceil(columns.length / mostLabels)
  const bars = columns.flatMap((column, at) => {
    let [up, down] = [0, 0]
    return series.flatMap(({ name, fill, isDown = false, values }) => {
      const value = values[at] ?? 0
      if (value <= 0) return []
      const [from, to] = isDown ? [-down - value, -down] : [up, up + value]
      if (isDown) down += value
      else up += value
      return [{ key: `${column.key} ${name}`, at, fill, yTop: y(to), height: Math.max(1, y(from) - y(to)) }]
    })
  })
  const key: PlotKeyItem[] = [
    ...(series.length > 1 ? series.map(({ name, fill }) => ({ kind: 'fill' as const, name, fill })) : []),
    ...levels.map(({ name, isDashed = false }) => ({ kind: 'line' as const, name, isDashed })),
    ...(markWords && columns.some(({ mark }) => mark) ? [{ kind: 'mark' as const, name: markWords }] : []),
  ]
  return (
    <>
      <div className={s.columns}>
        <svg className={s.drawing} width="100%" height={top + plotHeight + foot} role="img" aria-label={label}>
          <PlotFills id={id} />
          {ticks.map((tick) => (
            <g key={tick}>
              <line x1="0" x2="100%" y1={y(tick)} y2={y(tick)} className={tick === 0 ? s.base : s.grid} />
              <text x="-8" y={y(tick) + 4} textAnchor="end" className={s.tick}>
                {figure(Math.abs(tick))}
              </text>
            </g>
          ))}
          {bars.map(({ key: barKey, at, fill, yTop, height }) => (
            <rect
              key={barKey}
              className={s.bar}
              x={`${x(at)}%`}
              width={`${x.bandwidth()}%`}
              y={yTop}
              height={height}
              fill={paintOf(id, fill)}
            />
          ))}
          {columns.map(({ key: columnKey, mark }, at) =>
            mark ? (
              <circle key={columnKey} cx={`${(x(at) ?? 0) + x.bandwidth() / 2}%`} cy={y(0) - 5} r="3" className={s.mark} />
            ) : null,
          )}
          {levels.map(({ name, value, isDashed = false }) => (
            <line
              key={name}
              x1="0"
              x2="100%"
              y1={y(value)}
              y2={y(value)}
              className={s.level}
              strokeDasharray={isDashed ? 'var(--dash-long)' : undefined}
            />
          ))}
          {columns.map(({ key: columnKey, label: words }, at) =>
            (columns.length - 1 - at) % every === 0 ? (
              <text
                key={columnKey}
                x={`${(x(at) ?? 0) + x.bandwidth() / 2}%`}
                y={top + plotHeight + 20}
                textAnchor={at === columns.length - 1 && columns.length > mostLabels ? 'end' : 'middle'}
                className={s.tick}
              >
                {words}
              </text>
            ) : null,
          )}
        </svg>
      </div>
      <PlotKey items={key} />
    </>
  )
}
