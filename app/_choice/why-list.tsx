import { say } from '#language/say'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { askAgainAction } from './actions'
import s from './choice.module.css'
import type { ChoiceScreen } from './screens'

type WhyListProps = {
  designs: readonly { designId: string; title: string; why: readonly string[] }[]
  /** The choice that left them out: it can be asked again with one of them in. */
  ask?: { jobId: string; screen: ChoiceScreen }
}

/** Designs, and of each in sentences what stands in its way. */
export function WhyList({ designs, ask }: WhyListProps) {
  return (
    <ul className={s.why}>
      {designs.map(({ designId, title, why }) => (
        <li key={designId}>
          <div>
            <Link href={`/designs/${designId}`} className="title">
              {title}
            </Link>
            {why.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
          {ask && (
            <Form
              action={askAgainAction}
              hidden={{ ...ask, designId }}
              submit={say('Ask again with this one in')}
              submitKind="plain"
              isInline
              label={say('Ask again with {title} in', { title })}
            />
          )}
        </li>
      ))}
    </ul>
  )
}
