import { Link } from '#ui/link'
import s from './choose.module.css'

/** Designs, and of each in sentences what stands in its way. */
export function WhyList({ designs }: { designs: readonly { designId: string; title: string; why: readonly string[] }[] }) {
  return (
    <ul className={s.why}>
      {designs.map(({ designId, title, why }) => (
        <li key={designId}>
          <Link href={`/designs/${designId}`} className="title">
            {title}
          </Link>
          {why.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </li>
      ))}
    </ul>
  )
}
