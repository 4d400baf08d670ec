import { scaleLinear } from 'd3-scale'
import { useId } from 'react'
import s from './plot.module.css'
import { type PlotFill, PlotFills, paintOf } from './plot-fills'
import { PlotKey } from './plot-key'

type BarPlotProps = {
  /** What is heard instead of seen. */
  label: string
  series: readonly { name: string; fill: PlotFill }[]
  /** One part for each of the series, laid end to end; `figure` is what the whole says. */
  rows: readonly { key: string; label: string; parts: readonly number[]; figure: string }[]
}

/** Bars side by side from one line, each in its parts, all to one scale. */
export function BarPlot({ label, series, rows }: BarPlotProps) {
  const id = useId()
  const sum = (parts: readonly number[]) => parts.reduce((total, part) => total + part, 0)
  const x = scaleLinear()
    .domain([0, Math.max(1, ...rows.map(({ parts }) => sum(parts)))])
    .range([0, 100])
  return (
    <>
      <div className={s.bars} role="img" aria-label={label}>
        {rows.map((row, turn) => {
          let from = 0
          return (
            <div key={row.key} className={s.row}>
              <span className={s.name}>{row.label}</span>
              <svg className={s.drawing} width="100%" height="20" aria-hidden="true">
                {turn === 0 && <PlotFills id={id} />}
                {row.parts.map((part, at) => {
                  const start = x(from)
                  from += part
                  const one = series[at]
                  return part > 0 && one ? (
                    <rect
                      key={one.name}
                      className={s.bar}
                      x={`${start}%`}
                      width={`${x(from) - start}%`}
                      y="2"
                      height="16"
                      fill={paintOf(id, one.fill)}
                    />
                  ) : null
                })}
                <line x1="0" x2="0" y1="0" y2="20" className={s.base} />
              </svg>
              <span className={s.figure}>{row.figure}</span>
            </div>
          )
        })}
      </div>
      <PlotKey items={series.length > 1 ? series.map((one) => ({ kind: 'fill', ...one })) : []} />
    </>
  )
}
