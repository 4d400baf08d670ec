import type { Metadata } from 'next'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { lineTitle } from '#words/thread'
import { BuyParts } from '../buy-parts'
import { rowLinksColumn } from '../row-links'
import { ThreadCell } from '../thread-cell'
import { putUpWords } from '../words'

export const generateMetadata = (): Metadata => ({ title: say('Missing from the range') })

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
        title={say('Missing from the range')}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('Missing from the range') }]}
        note={
          range &&
          say('{threadCount} of {threadCount2} held', {
            threadCount: range.threadCount - range.missing.length,
            threadCount2: range.threadCount,
          })
        }
        byline={say(
          'Threads of one line on record of which {ownerName} holds none, and how many designs name each. A colour that is not on record is not known here.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      />
      <BuyParts current="/buy/missing" />
      {!line || !range ? (
        <Empty
          title={say('No thread is on record yet')}
          actions={<LinkButton href="/bring-in">{say('Bring in a range')}</LinkButton>}
        >
          {say('Bring in a maker’s range, or add its threads: what is not held then stands here.')}
        </Empty>
      ) : (
        <>
          <PrintLine>{sayParts('{lineTitle}: not held by {ownerName}', { lineTitle: lineTitle(line), ownerName })}</PrintLine>
          <FormStrip
            action="/buy/missing"
            label={say('Choose the line')}
            summary={say('{lineTitle}: {shown, plural, one {# thread} other {# threads}} missing', {
              lineTitle: lineTitle(line),
              shown: shown.length,
            })}
            second={<StripCheck name="wanted" label={say('Only those a design names')} isChecked={onlyWanted} />}
          >
            <StripSelect
              name="line"
              label={say('Line')}
              value={line.id}
              options={lines.map((one) => ({ value: one.id, label: lineTitle(one) }))}
            />
          </FormStrip>
          {shown.length === 0 ? (
            <Empty title={onlyWanted ? say('No design names a thread that is missing.') : say('The range is complete.')}>
              {say('Some of every thread {hasOnlyWanted, select, yes {that is named } other {on record }}is held.', {
                hasOnlyWanted: Boolean(onlyWanted),
              })}
            </Empty>
          ) : (
            <Ledger
              caption={say('Missing from {lineTitle}', { lineTitle: lineTitle(line) })}
              rows={shown}
              rowKey={({ thread }) => thread.id}
              isTight
              columns={[
                { key: 'thread', head: say('Thread'), phone: 'lead', cell: ({ thread }) => <ThreadCell thread={thread} /> },
                {
                  key: 'designs',
                  head: say('Designs that name it'),
                  isNumeric: true,
                  phone: 'labelled',
                  cell: ({ designCount }) => (designCount > 0 ? numberText(designCount) : say('none')),
                },
                {
                  key: 'order',
                  head: say('On order'),
                  isNumeric: true,
                  phone: 'labelled',
                  cell: ({ onOrderPutUps, thread }) => (onOrderPutUps > 0 ? putUpWords(onOrderPutUps, thread) : say('none')),
                },
                rowLinksColumn(),
              ]}
            />
          )}
        </>
      )}
    </>
  )
}
