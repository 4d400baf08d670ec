import { cookies } from 'next/headers'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { beginTourAction } from './actions'
import { errands } from './errands'
import s from './tour-section.module.css'
import { readTour, tourCookie } from './tour-state'

/** The way into the first errands, from wherever help is looked for. */
export async function TourSection({ title = 'First errands' }: { title?: string }) {
  const kept = readTour((await cookies()).get(tourCookie)?.value)
  return (
    <Section title={title} id="errands" note="Kept on this device.">
      <p className={s.words}>
        Three things to do on the screens themselves, with a sentence beside each step. It waits until you have done it, and can
        be left at any time.
      </p>
      <ol className={s.errands}>
        {errands.map((errand) => (
          <li key={errand.key}>{errand.title}</li>
        ))}
      </ol>
      <div className={s.ways}>
        {kept && (
          <Form
            action={beginTourAction}
            hidden={{ from: 'where-left' }}
            submit={`Go on: ${errands[kept.errand]?.title}`}
            isInline
          />
        )}
        <Form
          action={beginTourAction}
          hidden={{ from: 'start' }}
          submit={kept ? 'Begin again' : 'Begin'}
          submitKind="plain"
          isInline
          label="Begin the first errands"
        />
      </div>
      <p className={s.more}>
        <Link href="/guide">All of it on one page</Link>, to print; and the <Link href="/glossary">words of the trade</Link>.
      </p>
    </Section>
  )
}
