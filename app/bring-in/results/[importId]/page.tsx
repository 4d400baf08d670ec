import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { numberText } from '#language/figures'
import { findImport } from '#lib/db/importing/imports'
import type { ImportKind } from '#lib/importing/fields'
import { ButtonRow, LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { momentWords } from '#words/date'
import s from '../../bring-in.module.css'
import { errandQuery, nextHref, parseErrand, previewHref, waitingTitle } from '../../choices'
import { UndoImport } from '../../undo-import'
import { describeLeft, describeTakenBack, kindWords } from '../../words'

export const metadata: Metadata = { title: 'Brought in' }

type ResultPageProps = { params: Promise<{ importId: string }>; searchParams: Promise<Record<string, unknown>> }

/** How an undo went, from the address; anything else than that is passed over. */
const undoneSchema = z
  .string()
  .transform((text, context) => {
    try {
      return JSON.parse(text) as unknown
    } catch {
      context.addIssue({ code: 'custom', message: 'not JSON' })
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
        title={status === 'undone' ? `${fileName} was taken back` : `${fileName} is in`}
        crumbs={[{ label: 'Bring in', href: '/bring-in' }, { label: fileName }]}
        byline={`${kindWords[kind].title}, brought in ${momentWords(at)}`}
      />
      {status === 'undone' && (
        <Notice kind="done" title={undone.success ? describeTakenBack(undone.data.takenBack) : 'This was undone.'}>
          {undone.success && undone.data.left.length > 0 && (
            <>
              <p>Left where it is:</p>
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
          { label: 'New', value: figure(addedCount) },
          { label: 'Changed', value: figure(changedCount) },
          { label: 'The same', value: figure(sameCount) },
          { label: 'Refused', value: figure(refusedCount) },
        ]}
      />
      {status === 'done' && refusedCount > 0 && (
        <Notice kind="caution" title={`${counted(refusedCount, 'row')} were left out`.replace('1 row were', '1 row was')}>
          {stagedId ? (
            <>
              <a href={`/bring-in/${stagedId}/refused${errandQuery({ stagedId: null, choices, waiting: [] })}`} download>
                Download what to mend as CSV
              </a>{' '}
              and bring it in by itself, or <Link href={previewHref(stagedId, choices, waiting)}>look at the reasons again</Link>.
            </>
          ) : (
            'Mend them in the file and bring it in again: what is here already is not brought in twice.'
          )}
        </Notice>
      )}
      <Section title="What to do next">
        <ul className={s.next}>
          {next && (
            <li>
              <LinkButton href={nextHref([next, ...later])} kind="first">
                On to {waitingTitle(next)}
              </LinkButton>
              {later.length > 0 && <span className="quiet"> and {counted(later.length, 'more table')} after it</span>}
            </li>
          )}
          {(status === 'undone' ? [anotherFile] : nextSteps[kind]).map(({ href, label, why }) => (
            <li key={href}>
              <Link href={href}>{label}</Link> <span className="quiet">{why}</span>
            </li>
          ))}
        </ul>
      </Section>
      {status === 'done' && (
        <Section title="Not right?">
          <ButtonRow>
            <UndoImport imported={imported} />
          </ButtonRow>
        </Section>
      )}
    </>
  )
}

type NextStep = { href: string; label: string; why: string }

const anotherFile: NextStep = { href: '/bring-in', label: 'Bring in another file', why: '' }
const stitchable: NextStep = {
  href: '/charts?stitchableNow=1',
  label: 'Charts stitchable now',
  why: 'from the threads held, with nothing to buy',
}

const nextSteps: Record<ImportKind, NextStep[]> = {
  places: [
    { href: '/places', label: 'Walk through the places', why: 'room by room, drawer by drawer' },
    { ...anotherFile, why: 'threads or cloth, which live in them' },
  ],
  threads: [
    stitchable,
    { href: '/threads', label: 'Look through the threads', why: 'by maker and line' },
    { ...anotherFile, why: 'charts and their thread lists say what the threads are wanted for' },
  ],
  cloth: [
    { href: '/cloth', label: 'Look through the cloth', why: 'by weave and count' },
    { ...anotherFile, why: 'charts say what it can be cut for' },
  ],
  charts: [
    { href: '/charts', label: 'Look through the charts', why: 'by designer, season, subject and place' },
    { ...anotherFile, why: 'thread lists say which charts can be stitched' },
  ],
  lists: [stitchable, { ...anotherFile, why: 'threads held, if they are not here yet' }],
  projects: [
    { href: '/projects', label: 'See the projects', why: 'what is under way and what is planned' },
    { href: '/finishes', label: 'See the finishes', why: '' },
    anotherFile,
  ],
  notions: [
    { href: '/notions', label: 'Look through the notions', why: 'by kind and size, with what is to be bought' },
    anotherFile,
  ],
}
