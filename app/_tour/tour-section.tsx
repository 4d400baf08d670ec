import { cookies } from 'next/headers'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { beginTourAction } from './actions'
import { errands } from './errands'
import s from './tour-section.module.css'
import { readTour, tourCookie } from './tour-state'

/** The way into the first errands, from wherever help is looked for. */
export async function TourSection({ title = say('First errands') }: { title?: string }) {
  const kept = readTour((await cookies()).get(tourCookie)?.value)
  return (
    <Section title={title} id="errands" note={say('Kept on this device.')}>
      <p className={s.words}>
        {say(
          'Three things to do on the screens themselves, with a sentence beside each step. It waits until you have done it, and can be left at any time.',
        )}
      </p>
      <ol className={s.errands}>
        {errands().map((errand) => (
          <li key={errand.key}>{errand.title}</li>
        ))}
      </ol>
      <div className={s.ways}>
        {kept && (
          <Form
            action={beginTourAction}
            hidden={{ from: 'where-left' }}
            submit={say('Go on: {title}', { title: errands()[kept.errand]?.title })}
            isInline
          />
        )}
        <Form
          action={beginTourAction}
          hidden={{ from: 'start' }}
          submit={kept ? say('Begin again') : say('Begin')}
          submitKind="plain"
          isInline
          label={say('Begin the first errands')}
        />
      </div>
      <p className={s.more}>
        {sayParts('<link>All of it on one page</link>, to print; and the <link2>words of the trade</link2>.', {
          link: (words) => <Link href="/guide">{words}</Link>,
          link2: (words) => <Link href="/glossary">{words}</Link>,
        })}
      </p>
    </Section>
  )
}
