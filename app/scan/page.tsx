import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findScanned, type ScannedAnswer, type ScannedThing } from '#lib/db/label/find-scanned'
import { scannedPath } from '#lib/label/read-scanned'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { scannedNounWords, scannedTitle } from '#words/scan'
import { OldLabels } from '../_places/old-labels'
import s from './scan.module.css'
import { ScanCamera } from './scan-camera'

export const generateMetadata = (): Metadata => ({ title: say('Scan') })

const querySchema = z.object({ text: z.string().max(400).catch('').default('') })

type PageProps = { searchParams: Promise<Record<string, unknown>> }

/** What a label, bars or a code is: one thing opens at once, several are listed, and what is none of ours is shown and not followed. */
export default async function ScanPage({ searchParams }: PageProps) {
  const { text } = querySchema.parse(await searchParams)
  const answer = text.trim() === '' ? null : await findScanned(text)
  const only = answer?.things.length === 1 && !answer.old?.former.length ? answer.things[0] : undefined
  if (only) redirect(scannedPath(only))
  return (
    <>
      <PageHead
        title={say('Scan')}
        crumbs={[{ label: say('Find'), href: '/' }, { label: say('Scan') }]}
        byline={say(
          'A label of ours opens its place, chart, thread, piece of cloth or project; bars that were remembered open their thread.',
        )}
      />
      {answer && <Answer answer={answer} />}
      <div className={s.ways}>
        <ScanCamera shown={text} />
        <form action="/scan" className={s.type} aria-label={say('Type what the label says')}>
          <TextField
            name="text"
            label={say('Or type what the label says')}
            hint={say('A place, a code, the digits under bars, an old label.')}
            maxLength={300}
            autoComplete="off"
          />
          <Button type="submit">{say('Look')}</Button>
        </form>
      </div>
    </>
  )
}

function Answer({ answer }: { answer: ScannedAnswer }) {
  const { things, old, text } = answer
  if (answer.how === 'none') {
    return (
      <Empty title={say('None of ours')} actions={<LinkButton href="/">{say('Look for it by name')}</LinkButton>}>
        <p>
          {sayParts('It says: {rest}', {
            rest: <span className={s.said}>{text === '' ? say('nothing that can be read') : text}</span>,
          })}
        </p>
        <p>{say('No place, thread, chart, cloth or project on record answers to it. An address in it is not opened.')}</p>
      </Empty>
    )
  }
  const columns: Column<ScannedThing>[] = [
    { key: 'what', head: say('What'), cell: scannedTitle, phone: 'lead' },
    { key: 'noun', head: say('Kind'), cell: ({ noun }) => scannedNounWords[noun], phone: 'line' },
  ]
  return (
    <Section title={`“${text}”`} note={things.length > 1 ? say('Several answer to it: which one?') : undefined}>
      {old && <OldLabels lookUp={old} />}
      {things.length > 0 && (
        <Ledger
          caption={say('What answers to it')}
          columns={columns}
          rows={things}
          rowKey={({ noun, id }) => `${noun} ${id}`}
          rowHref={scannedPath}
        />
      )}
    </Section>
  )
}
