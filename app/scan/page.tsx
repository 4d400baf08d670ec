import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { z } from 'zod'
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

export const metadata: Metadata = { title: 'Scan' }

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
        title="Scan"
        crumbs={[{ label: 'Find', href: '/' }, { label: 'Scan' }]}
        byline="A label of ours opens its place, chart, thread, piece of cloth or project; bars that were remembered open their thread."
      />
      {answer && <Answer answer={answer} />}
      <div className={s.ways}>
        <ScanCamera shown={text} />
        <form action="/scan" className={s.type} aria-label="Type what the label says">
          <TextField
            name="text"
            label="Or type what the label says"
            hint="A place, a code, the digits under bars, an old label."
            maxLength={300}
            autoComplete="off"
          />
          <Button type="submit">Look</Button>
        </form>
      </div>
    </>
  )
}

function Answer({ answer }: { answer: ScannedAnswer }) {
  const { things, old, text } = answer
  if (answer.how === 'none') {
    return (
      <Empty title="None of ours" actions={<LinkButton href="/">Look for it by name</LinkButton>}>
        <p>
          It says: <span className={s.said}>{text === '' ? 'nothing that can be read' : text}</span>
        </p>
        <p>No place, thread, chart, cloth or project on record answers to it. An address in it is not opened.</p>
      </Empty>
    )
  }
  const columns: Column<ScannedThing>[] = [
    { key: 'what', head: 'What', cell: scannedTitle, phone: 'lead' },
    { key: 'noun', head: 'Kind', cell: ({ noun }) => scannedNounWords[noun], phone: 'line' },
  ]
  return (
    <Section title={`“${text}”`} note={things.length > 1 ? 'Several answer to it: which one?' : undefined}>
      {old && <OldLabels lookUp={old} />}
      {things.length > 0 && (
        <Ledger
          caption="What answers to it"
          columns={columns}
          rows={things}
          rowKey={({ noun, id }) => `${noun} ${id}`}
          rowHref={scannedPath}
        />
      )}
    </Section>
  )
}
