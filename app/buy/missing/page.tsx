import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readMissing } from '#lib/db/reorder/missing-threads'
import { listLines } from '#lib/db/thread/list-lines'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { lineTitle } from '#words/thread'
import { BuyParts } from '../buy-parts'
import { rowLinksColumn } from '../row-links'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const metadata: Metadata = { title: 'Missing from the range' }

type MissingPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function MissingPage({ searchParams }: MissingPageProps) {
  const { line: asked, wanted } = await searchParams
  const [{ ownerIds, ownerName }, lines, answers] = await Promise.all([getViewer(), listLines(), getAnswers()])
  const line = lines.find(({ id }) => id === asked) ?? lines[0]
  const onlyWanted = wanted === '1'
  const range = line && (await readMissing(answers, { lineId: line.id, ownerIds }))
  const shown = range?.missing.filter(({ designCount }) => !onlyWanted || designCount > 0) ?? []
  return (
    <>
      <PageHead
        title="Missing from the range"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'Missing from the range' }]}
        note={range && `${range.threadCount - range.missing.length} of ${range.threadCount} held`}
        byline={`Threads of one line on record of which ${ownerName || 'nobody yet'} holds none, and how many designs name each. A colour that is not on record is not known here.`}
      />
      <BuyParts current="/buy/missing" />
      {!line || !range ? (
        <Empty title="No thread is on record yet" actions={<LinkButton href="/bring-in">Bring in a range</LinkButton>}>
          Bring in a maker’s range, or add its threads: what is not held then stands here.
        </Empty>
      ) : (
        <>
          <PrintLine>
            {lineTitle(line)}: not held by {ownerName}
          </PrintLine>
          <FormStrip
            action="/buy/missing"
            label="Choose the line"
            summary={`${lineTitle(line)}: ${counted(shown.length, 'thread')} missing`}
            second={<StripCheck name="wanted" label="Only those a design names" isChecked={onlyWanted} />}
          >
            <StripSelect
              name="line"
              label="Line"
              value={line.id}
              options={lines.map((one) => ({ value: one.id, label: lineTitle(one) }))}
            />
          </FormStrip>
          {shown.length === 0 ? (
            <Empty title={onlyWanted ? 'No design names a thread that is missing.' : 'The range is complete.'}>
              Some of every thread {onlyWanted ? 'that is named ' : 'on record '}is held.
            </Empty>
          ) : (
            <Ledger
              caption={`Missing from ${lineTitle(line)}`}
              rows={shown}
              rowKey={({ thread }) => thread.id}
              isTight
              columns={[
                { key: 'thread', head: 'Thread', phone: 'lead', cell: ({ thread }) => <ThreadCell thread={thread} /> },
                {
                  key: 'designs',
                  head: 'Designs that name it',
                  isNumeric: true,
                  phone: 'labelled',
                  cell: ({ designCount }) => (designCount > 0 ? numberText(designCount) : 'none'),
                },
                {
                  key: 'order',
                  head: 'On order',
                  isNumeric: true,
                  phone: 'labelled',
                  cell: ({ onOrderPutUps, thread }) => (onOrderPutUps > 0 ? putUpWords(onOrderPutUps, thread) : 'none'),
                },
                rowLinksColumn,
              ]}
            />
          )}
        </>
      )}
    </>
  )
}
