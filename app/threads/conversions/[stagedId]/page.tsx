import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { keepListAction } from '../actions'
import { pairColumns } from '../pair-columns'
import { previewSchema } from '../schema'
import { describeListRefusal, describeProblem, describeUnread } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('How the list reads') })

const shownAtOnce = 200

type Props = { params: Promise<{ stagedId: string }>; searchParams: Promise<Record<string, unknown>> }

export default async function PreviewPage({ params, searchParams }: Props) {
  const { stagedId } = await params
  const { source, line, other } = previewSchema.parse(await searchParams)
  const staged = await readStagedFile(stagedId)
  const crumbs = [
    { label: say('Threads'), href: '/threads' },
    { label: say('Conversion lists'), href: '/threads/conversions' },
    { label: say('How the list reads') },
  ]
  const again = <LinkButton href="/threads/conversions#bring">{say('Bring it again')}</LinkButton>
  if (!staged) {
    return (
      <>
        <PageHead title={say('How the list reads')} crumbs={crumbs} />
        <Empty title={say('That list is no longer here')} actions={again}>
          {say('It was kept for a day.')}
        </Empty>
      </>
    )
  }
  const answers = await getAnswers()
  const read = readOpinionList(answers, staged.bytes, { lineId: line, otherLineId: other })
  if (!read.ok) {
    return (
      <>
        <PageHead title={say('How the list reads')} crumbs={crumbs} />
        <Empty title={describeListRefusal(read.error)} actions={again}>
          {say('Nothing was kept.')}
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
      <PageHead
        title={say('How the list reads')}
        crumbs={crumbs}
        byline={staged.fileName === 'pasted' ? say('As pasted') : staged.fileName}
      >
        <p>
          {sayParts('<b>{matched, plural, one {# opinion} other {# opinions}} read</b>{rest}. Nothing is kept yet.', {
            b: (words) => <b>{words}</b>,
            matched: matched.length,
            rest: aside.length > 0 && say(', {aside, plural, one {# row} other {# rows}} kept aside', { aside: aside.length }),
          })}
        </p>
      </PageHead>
      {matched.length > 0 && (
        <Section title={say('Keep it')}>
          <Form
            action={keepListAction}
            submit={say('Keep {matched, plural, one {# opinion} other {# opinions}}', { matched: matched.length })}
            hidden={{ stagedId, lineId: line ?? '', otherLineId: other ?? '' }}
            actions={again}
          >
            <TextField name="sourceName" label={say('Who says so')} defaultValue={source} isRequired maxLength={100} />
          </Form>
        </Section>
      )}
      {matched.length > 0 && (
        <Section
          title={say('What it says')}
          note={
            matched.length > shownAtOnce
              ? say('The first {shownAtOnce} of {matched}.', { shownAtOnce, matched: matched.length })
              : undefined
          }
        >
          <Ledger
            caption={say('What it says')}
            rows={matched.slice(0, shownAtOnce)}
            rowKey={({ rowNumber }) => rowNumber}
            isTight
            columns={[
              { key: 'row', head: say('Row'), width: '4rem', phone: 'mark', cell: ({ rowNumber }) => rowNumber },
              ...pairColumns(answers),
            ]}
          />
        </Section>
      )}
      {aside.length > 0 && (
        <Section
          title={say('Kept aside')}
          note={say('These rows are not kept; the others are.{rest}', {
            rest:
              aside.length > shownAtOnce ? say(' The first {shownAtOnce} of {aside}.', { shownAtOnce, aside: aside.length }) : '',
          })}
        >
          <Ledger
            caption={say('Rows kept aside')}
            rows={aside.slice(0, shownAtOnce)}
            rowKey={({ rowNumber }) => rowNumber}
            isTight
            columns={[
              { key: 'row', head: say('Row'), width: '4rem', phone: 'mark', cell: ({ rowNumber }) => rowNumber },
              { key: 'said', head: say('As written'), phone: 'lead', cell: ({ said }) => said },
              { key: 'why', head: say('Why'), phone: 'line', cell: ({ why }) => why },
            ]}
          />
        </Section>
      )}
    </>
  )
}
