import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findImport } from '#lib/db/importing/imports'
import type { ImportKind } from '#lib/importing/fields'
import { ButtonRow, LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { momentWords } from '#words/date'
import s from '../../bring-in.module.css'
import { errandQuery, nextHref, parseErrand, previewHref, waitingTitle } from '../../choices'
import { UndoImport } from '../../undo-import'
import { describeLeft, describeTakenBack, kindWords } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Brought in') })

type ResultPageProps = { params: Promise<{ importId: string }>; searchParams: Promise<Record<string, unknown>> }

/** How an undo went, from the address; anything else than that is passed over. */
const undoneSchema = z
  .string()
  .transform((text, context) => {
    try {
      return JSON.parse(text) as unknown
    } catch {
      context.addIssue({ code: 'custom', message: say('not JSON') })
      return z.NEVER
    }
  })
  .pipe(
    z.object({
      takenBack: z.int().min(0),
      left: z
        .array(z.object({ noun: z.string().max(20), why: z.enum(['changed-since', 'in-use']), count: z.int().min(1) }))
        .max(40),
    }),
  )

export default async function ResultPage({ params, searchParams }: ResultPageProps) {
  const [{ importId }, search] = await Promise.all([params, searchParams])
  const imported = await findImport(importId)
  if (!imported) notFound()
  const { kind, fileName, at, status, addedCount, changedCount, sameCount, refusedCount } = imported
  const { stagedId, choices, waiting } = parseErrand(search)
  const [next, ...later] = waiting
  const figure = (count: number) => numberText(count)
  const undone = undoneSchema.safeParse(search.undone)
  return (
    <>
      <PageHead
        title={status === 'undone' ? say('{fileName} was taken back', { fileName }) : say('{fileName} is in', { fileName })}
        crumbs={[{ label: say('Bring in'), href: '/bring-in' }, { label: fileName }]}
        byline={say('{title}, brought in {moment}', { title: kindWords[kind].title, moment: momentWords(at) })}
      />
      {status === 'undone' && (
        <Notice kind="done" title={undone.success ? describeTakenBack(undone.data.takenBack) : say('This was undone.')}>
          {undone.success && undone.data.left.length > 0 && (
            <>
              <p>{say('Left where it is:')}</p>
              <ul>
                {undone.data.left.map((left) => (
                  <li key={`${left.noun} ${left.why}`}>{describeLeft(left)}</li>
                ))}
              </ul>
            </>
          )}
        </Notice>
      )}
      <Facts
        items={[
          { label: say('New'), value: figure(addedCount) },
          { label: say('Changed'), value: figure(changedCount) },
          { label: say('The same'), value: figure(sameCount) },
          { label: say('Refused'), value: figure(refusedCount) },
        ]}
      />
      {status === 'done' && refusedCount > 0 && (
        <Notice
          kind="caution"
          title={say('{refusedCount, plural, one {# row was} other {# rows were}} left out', { refusedCount })}
        >
          {stagedId
            ? sayParts(
                '<link>Download what to mend as CSV</link> and bring it in by itself, or <link2>look at the reasons again</link2>.',
                {
                  link: (words) => (
                    <a href={`/bring-in/${stagedId}/refused${errandQuery({ stagedId: null, choices, waiting: [] })}`} download>
                      {words}
                    </a>
                  ),
                  link2: (words) => <Link href={previewHref(stagedId, choices, waiting)}>{words}</Link>,
                },
              )
            : say('Mend them in the file and bring it in again: what is here already is not brought in twice.')}
        </Notice>
      )}
      <Section title={say('What to do next')}>
        <ul className={s.next}>
          {next && (
            <li>
              <LinkButton href={nextHref([next, ...later])} kind="first">
                {sayParts('On to {waitingTitle}', { waitingTitle: waitingTitle(next) })}
              </LinkButton>
              {later.length > 0 && (
                <span className="quiet">
                  {' '}
                  {say('and {later, plural, one {# more table} other {# more tables}} after it', { later: later.length })}
                </span>
              )}
            </li>
          )}
          {(status === 'undone' ? [anotherFile()] : nextSteps()[kind]).map(({ href, label, why }) => (
            <li key={href}>
              <Link href={href}>{label}</Link> <span className="quiet">{why}</span>
            </li>
          ))}
        </ul>
      </Section>
      {status === 'done' && (
        <Section title={say('Not right?')}>
          <ButtonRow>
            <UndoImport imported={imported} />
          </ButtonRow>
        </Section>
      )}
    </>
  )
}

type NextStep = { href: string; label: string; why: string }

const anotherFile = (): NextStep => ({ href: '/bring-in', label: say('Bring in another file'), why: '' })
const stitchable = (): NextStep => ({
  href: '/charts?stitchableNow=1',
  label: say('Charts stitchable now'),
  why: say('from the threads held, with nothing to buy'),
})

const nextSteps = (): Record<ImportKind, NextStep[]> => ({
  places: [
    { href: '/places', label: say('Walk through the places'), why: say('room by room, drawer by drawer') },
    { ...anotherFile(), why: say('threads or cloth, which live in them') },
  ],
  threads: [
    stitchable(),
    { href: '/threads', label: say('Look through the threads'), why: say('by maker and line') },
    { ...anotherFile(), why: say('charts and their thread lists say what the threads are wanted for') },
  ],
  cloth: [
    { href: '/cloth', label: say('Look through the cloth'), why: say('by weave and count') },
    { ...anotherFile(), why: say('charts say what it can be cut for') },
  ],
  charts: [
    { href: '/charts', label: say('Look through the charts'), why: say('by designer, season, subject and place') },
    { ...anotherFile(), why: say('thread lists say which charts can be stitched') },
  ],
  lists: [stitchable(), { ...anotherFile(), why: say('threads held, if they are not here yet') }],
  projects: [
    { href: '/projects', label: say('See the projects'), why: say('what is under way and what is planned') },
    { href: '/finishes', label: say('See the finishes'), why: '' },
    anotherFile(),
  ],
  notions: [
    { href: '/notions', label: say('Look through the notions'), why: say('by kind and size, with what is to be bought') },
    anotherFile(),
  ],
})
