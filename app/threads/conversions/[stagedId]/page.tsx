import type { Metadata } from 'next'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readStagedFile } from '#lib/db/importing/stage-file'
import { readOpinionList } from '#lib/db/thread/read-opinion-list'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { keepListAction } from '../actions'
import { pairColumns } from '../pair-columns'
import { previewSchema } from '../schema'
import { describeListRefusal, describeProblem, describeUnread } from '../words'

export const metadata: Metadata = { title: 'How the list reads' }

const shownAtOnce = 200

type Props = { params: Promise<{ stagedId: string }>; searchParams: Promise<Record<string, unknown>> }

export default async function PreviewPage({ params, searchParams }: Props) {
  const { stagedId } = await params
  const { source, line, other } = previewSchema.parse(await searchParams)
  const staged = await readStagedFile(stagedId)
  const crumbs = [
    { label: 'Threads', href: '/threads' },
    { label: 'Conversion lists', href: '/threads/conversions' },
    { label: 'How the list reads' },
  ]
  const again = <LinkButton href="/threads/conversions#bring">Bring it again</LinkButton>
  if (!staged) {
    return (
      <>
        <PageHead title="How the list reads" crumbs={crumbs} />
        <Empty title="That list is no longer here" actions={again}>
          It was kept for a day.
        </Empty>
      </>
    )
  }
  const answers = await getAnswers()
  const read = readOpinionList(answers, staged.bytes, { lineId: line, otherLineId: other })
  if (!read.ok) {
    return (
      <>
        <PageHead title="How the list reads" crumbs={crumbs} />
        <Empty title={describeListRefusal(read.error)} actions={again}>
          Nothing was kept.
        </Empty>
      </>
    )
  }
  const { matched, unmatched, problems } = read.value
  const { world } = answers
  const nameOf = (threadId: string) => {
    const thread = world.threads.get(threadId)
    const itsLine = world.lines.get(world.lineOfThread.get(threadId) ?? '')
    return [itsLine?.makerName, itsLine?.name, thread?.code].filter(Boolean).join(' ')
  }
  const aside = [
    ...unmatched.map((row) => ({
      rowNumber: row.rowNumber,
      said: row.cells.filter(Boolean).join(' · '),
      why: describeUnread(row, nameOf),
    })),
    ...problems.map((problem) => ({ rowNumber: problem.rowNumber, said: problem.raw, why: describeProblem(problem) })),
  ].sort((a, b) => a.rowNumber - b.rowNumber)
  return (
    <>
      <PageHead title="How the list reads" crumbs={crumbs} byline={staged.fileName === 'pasted' ? 'As pasted' : staged.fileName}>
        <p>
          <b>{counted(matched.length, 'opinion')} read</b>
          {aside.length > 0 && `, ${counted(aside.length, 'row')} kept aside`}. Nothing is kept yet.
        </p>
      </PageHead>
      {matched.length > 0 && (
        <Section title="Keep it">
          <Form
            action={keepListAction}
            submit={`Keep ${counted(matched.length, 'opinion')}`}
            hidden={{ stagedId, lineId: line ?? '', otherLineId: other ?? '' }}
            actions={again}
          >
            <TextField name="sourceName" label="Who says so" defaultValue={source} isRequired maxLength={100} />
          </Form>
        </Section>
      )}
      {matched.length > 0 && (
        <Section
          title="What it says"
          note={matched.length > shownAtOnce ? `The first ${shownAtOnce} of ${matched.length}.` : undefined}
        >
          <Ledger
            caption="What it says"
            rows={matched.slice(0, shownAtOnce)}
            rowKey={({ rowNumber }) => rowNumber}
            isTight
            columns={[
              { key: 'row', head: 'Row', width: '4rem', phone: 'mark', cell: ({ rowNumber }) => rowNumber },
              ...pairColumns(answers),
            ]}
          />
        </Section>
      )}
      {aside.length > 0 && (
        <Section
          title="Kept aside"
          note={`These rows are not kept; the others are.${aside.length > shownAtOnce ? ` The first ${shownAtOnce} of ${aside.length}.` : ''}`}
        >
          <Ledger
            caption="Rows kept aside"
            rows={aside.slice(0, shownAtOnce)}
            rowKey={({ rowNumber }) => rowNumber}
            isTight
            columns={[
              { key: 'row', head: 'Row', width: '4rem', phone: 'mark', cell: ({ rowNumber }) => rowNumber },
              { key: 'said', head: 'As written', phone: 'lead', cell: ({ said }) => said },
              { key: 'why', head: 'Why', phone: 'line', cell: ({ why }) => why },
            ]}
          />
        </Section>
      )}
    </>
  )
}
