import { Link } from '#ui/link'
import s from './buy.module.css'

const parts = [
  { href: '/buy', label: 'For designs chosen' },
  { href: '/buy/lists', label: 'Lists to shop by' },
  { href: '/buy/minimum', label: 'Below the minimum' },
  { href: '/buy/on-order', label: 'On order' },
  { href: '/buy/ran-out', label: 'Ran out this month' },
  { href: '/buy/missing', label: 'Missing from the range' },
  { href: '/buy/leaving', label: 'Leaving the range' },
  { href: '/buy/compare', label: 'Which length is cheaper' },
] as const

/** The parts of buying, each a page. */
export function BuyParts({ current }: { current: (typeof parts)[number]['href'] }) {
  return (
    <nav className={s.parts} aria-label="Parts of buying">
      <ul>
        {parts.map(({ href, label }) => (
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
