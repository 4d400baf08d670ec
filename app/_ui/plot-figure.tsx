import { type ReactNode, useId } from 'react'
import { say } from '#language/say'
import { LinkButton } from './button'
import { Ledger } from './ledger'
import s from './plot.module.css'
import { Unfold } from './unfold'

/** The numbers a drawing was made from: the first column names the row. */
export type PlotTable = { heads: readonly string[]; rows: readonly (readonly string[])[] }

type PlotFigureProps = {
  id: string
  title: string
  /** What it shows, in a sentence. */
  children: ReactNode
  /** What is to be seen, drawn; without it, only the sentence stands. */
  drawing: ReactNode
  table: PlotTable
  csvHref: string
}

/** A drawing of numbers with its title, a sentence, and the numbers themselves: unfolded beside it, and as a file. */
export function PlotFigure({ id, title, children, drawing, table, csvHref }: PlotFigureProps) {
  const headId = useId()
  const columns = table.heads.map((head, at) => ({
    key: head,
    head,
    cell: (row: readonly string[]) => row[at] ?? '',
    isNumeric: at > 0,
    phone: at === 0 ? ('lead' as const) : ('labelled' as const),
  }))
  return (
    <figure className={s.plot} id={id} aria-labelledby={headId}>
      <figcaption>
        <h2 id={headId}>{title}</h2>
        <div className={s.says}>{children}</div>
      </figcaption>
      {drawing && (
        <>
          {drawing}
          <div className={s.numbers}>
            <div>
              <Unfold label={say('The numbers')}>
                <Ledger caption={title} columns={columns} rows={table.rows} rowKey={(row) => row[0] ?? ''} isTight />
              </Unfold>
            </div>
            <LinkButton kind="quiet" download href={csvHref} aria-label={say('{title}, as CSV', { title })}>
              {say('CSV')}
            </LinkButton>
          </div>
        </>
      )}
    </figure>
  )
}
