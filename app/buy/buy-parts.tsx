import { say } from '#language/say'
import { Link } from '#ui/link'
import s from './buy.module.css'

const parts = () =>
  [
    { href: '/buy', label: say('For designs chosen') },
    { href: '/buy/lists', label: say('Lists to shop by') },
    { href: '/buy/minimum', label: say('Below the minimum') },
    { href: '/buy/on-order', label: say('On order') },
    { href: '/buy/ran-out', label: say('Ran out this month') },
    { href: '/buy/missing', label: say('Missing from the range') },
    { href: '/buy/leaving', label: say('Leaving the range') },
    { href: '/buy/compare', label: say('Which length is cheaper') },
  ] as const

/** The parts of buying, each a page. */
export function BuyParts({ current }: { current: ReturnType<typeof parts>[number]['href'] }) {
  return (
    <nav className={s.parts} aria-label={say('Parts of buying')}>
      <ul>
        {parts().map(({ href, label }) => (
          <li key={href}>
            <Link href={href} aria-current={href === current ? 'page' : undefined}>
              {label}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}
