import type { ReactNode } from 'react'
import { say } from '#language/say'
import { Link } from '#ui/link'
import { DrawerFront } from './drawer-front'
import type { PlaceKind } from './place-mark'
import s from './plan-from-above.module.css'
import { TagMark, ThreadBar } from './thread-bar'
import type { Dye, Hex } from './winding'

export type PlanCell = {
  key: string
  /** What its label says after the drawer's own: 14. */
  position: string
  /** Left out, the compartment is empty. */
  content?: {
    title: ReactNode
    note?: ReactNode
    /** × 6, 2 + part. */
    quantity?: ReactNode
    href?: string
    /** The colours of a thread; for other things no bar is drawn. */
    hexes?: readonly Hex[]
    dye?: Dye
    /** It is out, its gap kept: where it is and since when. */
    out?: { where: ReactNode; isDue?: boolean }
  }
}

type PlanFromAboveProps = {
  label: string
  note?: ReactNode
  kind?: PlaceKind
  /** How the first row lies, where it is not the back of a drawer. */
  edge?: string
  /** Compartments in a row, left to right. */
  columns: number
  /** In true order: left to right, back to front. */
  cells: readonly PlanCell[]
}

/**
 * An opened drawer: its compartments from above, in true order, and its front below them. On a phone the rows are not folded, for a
 * folded row no longer looks like the drawer: the plan scrolls sideways instead.
 */
export function PlanFromAbove({ label, note, kind, edge = say('back, seen from above'), columns, cells }: PlanFromAboveProps) {
  return (
    <div className={s.drawer}>
      <p className={s.edge}>{edge}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className={s.scroll} aria-label={say('Plan of {label}', { label })} tabIndex={0}>
        <ol
          className={s.plan}
          style={{ ['--columns' as string]: columns }}
          aria-label={say('Compartments, left to right, back to front')}
        >
          {cells.map((cell) => (
            <Cell key={cell.key} cell={cell} />
          ))}
        </ol>
      </section>
      <DrawerFront label={label} note={note} kind={kind} size="wide" />
    </div>
  )
}

function Cell({ cell }: { cell: PlanCell }) {
  const { content, position } = cell
  if (!content)
    return (
      <li className={s.cell}>
        <span className={s.head}>
          {position}
          <span className="vh"> {say('empty')}</span>
        </span>
      </li>
    )
  const { out } = content
  return (
    <li className={s.cell} data-out={out ? (out.isDue ? 'due' : 'away') : undefined}>
      <span className={s.head}>
        {position}
        {content.quantity && <span className={s.quantity}>{content.quantity}</span>}
      </span>
      {out ? <TagMark /> : content.hexes && <ThreadBar hexes={content.hexes} dye={content.dye} />}
      <b>
        {content.href ? <Link href={content.href}>{content.title}</Link> : content.title}
        {out && say(' out')}
      </b>
      <span className={s.note}>{out ? out.where : content.note}</span>
    </li>
  )
}
