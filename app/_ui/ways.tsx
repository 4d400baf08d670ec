import { Link } from './link'
import s from './ways.module.css'

/** Other screens that a list leads to, in one quiet line; left out on paper. */
export function Ways({ items }: { items: readonly { href: string; label: string }[] }) {
  return (
    <p className={`${s.ways} no-print`}>
      {items.map(({ href, label }) => (
        <Link key={href} href={href}>
          {label}
        </Link>
      ))}
    </p>
  )
}
