import type { ReactNode } from 'react'
import s from './sum.module.css'

export type SumRow = {
  label: ReactNode
  /** How the figure comes about: "2,940 × 4.8284 pitches". */
  how?: ReactNode
  figure: ReactNode
  /** `rule`: a line above the figure, for a total on the way; `end`: the answer, with a double line under it. */
  kind?: 'rule' | 'end'
}

type SumProps = { title: ReactNode; rows: readonly SumRow[]; note?: ReactNode }

/** An arithmetic slip: a sum written out, line by line. */
export function Sum({ title, rows, note }: SumProps) {
  const hasHow = rows.some((row) => row.how)
  return (
    <div className={s.slip}>
      <table className={s.sum} data-sum>
        <caption>{title}</caption>
        <tbody>
          {rows.map((row, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a line of a sum is known by its place in it
            <tr key={index} data-kind={row.kind}>
              <th scope="row">{row.label}</th>
              {hasHow && <td className={s.how}>{row.how}</td>}
              <td className={s.figure}>{row.figure}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {note && <p className={s.note}>{note}</p>}
    </div>
  )
}

/** Slips side by side where there is room, on sunk paper. */
export function Sums({ children }: { children: ReactNode }) {
  return (
    <div className={s.sums} data-sums>
      {children}
    </div>
  )
}
