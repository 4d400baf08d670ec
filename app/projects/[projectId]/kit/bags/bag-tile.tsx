import { say } from '#language/say'
import type { KitBag } from '#lib/db/kit-bag/queries'
import type { BagStatus } from '#lib/project/kit/bag-status'
import { faultsOf } from '#lib/project/kit/check'
import { Link } from '#ui/link'
import { counted } from '#words/amounts'
import { bagStatusWords } from '#words/kit'
import s from './bags.module.css'

/** A bag as it stands: its number, a mark whose shape says the state, and the state in a word. */
export function BagTile({ bag, projectId }: { bag: KitBag; projectId: string }) {
  const faults = faultsOf(
    bag.lines.map(({ key }) => key),
    bag.marks,
  ).length
  return (
    <Link href={`/projects/${projectId}/kit/bags/${bag.number}`} className={s.tile} data-status={bag.status}>
      <BagMark status={bag.status} isAtFault={faults > 0} />
      <span className={s.number}>
        {bag.number}
        {bag.isSpare && <small> {say('spare')}</small>}
      </span>
      <span className={faults > 0 ? 'do' : s.state}>{faults > 0 ? counted(faults, 'fault') : stateOf(bag)}</span>
    </Link>
  )
}

function stateOf({ status, uncut, soldTo }: KitBag): string {
  if (status === 'open') return uncut.length > 0 ? say('to cut') : say('cut, to pack')
  if (status === 'sold') return soldTo ? say('sold: {soldTo}', { soldTo }) : say('sold')
  return bagStatusWords[status]
}

/** A bag drawn: open, tied loosely, ticked, sealed across, or gone (an outline of dashes). */
export function BagMark({ status, isAtFault = false }: { status: BagStatus; isAtFault?: boolean }) {
  const isGone = status === 'sold'
  return (
    <svg viewBox="0 0 24 26" width="24" height="26" aria-hidden="true" className={s.mark}>
      <path
        d={status === 'open' ? 'M4 8v16h16V8M4 8l-2-5M20 8l2-5' : 'M4 8v16h16V8M4 8q8 4 16 0'}
        fill="none"
        stroke="currentColor"
        strokeWidth="var(--pen-line)"
        strokeDasharray={isGone ? 'var(--dash)' : undefined}
      />
      {status !== 'open' && <path d="M4 8 7 3h10l3 5" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />}
      {isAtFault && <path d="m8 13 8 8m0-8-8 8" fill="none" stroke="var(--madder)" strokeWidth="var(--pen-bold)" />}
      {!isAtFault && status === 'checked' && (
        <path d="m8 17 3 3 6-7" fill="none" stroke="currentColor" strokeWidth="var(--pen-bold)" />
      )}
      {(status === 'sealed' || isGone) && <path d="M4 14h16v4H4z" fill="currentColor" />}
    </svg>
  )
}
