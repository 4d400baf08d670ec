import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findFiling } from '#lib/db/filing/read-filing'
import { listLines } from '#lib/db/thread/list-lines'
import { parseCodeList } from '#lib/thread/code-list'
import { filingOrders } from '#lib/thread/filing-order'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect, StripStep, StripText } from '#ui/form-strip'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { dayOf } from '#words/date'
import { lineTitle } from '#words/thread'
import { AfreshSection } from './afresh-section'
import { ChoicesSection } from './choices-section'
import { DrawersSection } from './drawers-section'
import { MovesSection } from './moves-section'
import { type FilingChoices, filingChoicesSchema, mostCodes, requestOf } from './schema'
import { orderWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Filing plan') })

const crumbs = () => [{ label: say('Places'), href: '/places' }, { label: say('Filing plan') }]

export default async function FilingPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const choices = filingChoicesSchema.parse(await searchParams)
  const [{ ownerIds, ownerName }, lines] = await Promise.all([getViewer(), listLines()])
  const line = lines.find(({ id }) => id === choices.line) ?? null
  const strip = (
    <Strip
      choices={choices}
      lines={lines.map((one) => ({ value: one.id, label: lineTitle(one) }))}
      title={line && lineTitle(line)}
    />
  )
  if (!line) {
    return (
      <>
        <PageHead
          title={say('Filing plan')}
          crumbs={crumbs()}
          byline={say('Which thread goes in which drawer, and what to move when a range grows.')}
        />
        {lines.length > 0 ? (
          <>
            {strip}
            <Empty title={say('Choose a line')}>
              {say(
                'Its drawers are found from where its threads live. Then say which codes are to come in, and see the fewest moves that make room.',
              )}
            </Empty>
          </>
        ) : (
          <Empty title={say('No threads yet')} actions={<LinkButton href="/threads/new">{say('Add a thread')}</LinkButton>}>
            {say('Once threads are on record, their drawers can be planned here.')}
          </Empty>
        )}
      </>
    )
  }
  const filing = await findFiling(requestOf(choices, line.id, ownerIds))
  const coming = filing.lines.filter(({ drawer }) => drawer === null).length
  const chosen = filing.growth.choices.find(({ way }) => way === (choices.way ?? filing.growth.recommended)) ?? null
  return (
    <>
      <PageHead
        title={say('Filing plan')}
        note={lineTitle(line)}
        crumbs={crumbs()}
        byline={say('Stock of {ownerName}, filed {order}.', {
          ownerName: ownerName || say('nobody yet'),
          order: orderWords[choices.order],
        })}
      />
      <PrintLine>
        {lineTitle(line)}, {orderWords[choices.order]}; {dayOf(new Date())}
      </PrintLine>
      {strip}
      {parseCodeList(choices.codes).length > mostCodes && (
        <Notice kind="caution" title={say('Only the first {mostCodes, number} codes are planned.', { mostCodes })}>
          {say('Carry these out, then bring in the rest.')}
        </Notice>
      )}
      {filing.drawers.length === 0 ? (
        <Empty
          title={say('This line lives nowhere yet')}
          actions={<LinkButton href="/threads">{say('Give its threads a home')}</LinkButton>}
        >
          {sayParts('None of {ownerName}’s threads of it has a home. Below is how it would lie in drawers of its own.', {
            ownerName,
          })}
        </Empty>
      ) : (
        <>
          <ChoicesSection filing={filing} choices={choices} chosen={chosen} coming={coming} />
          {chosen && <MovesSection filing={filing} choices={choices} chosen={chosen} />}
          <DrawersSection filing={filing} />
        </>
      )}
      <AfreshSection filing={filing} choices={choices} />
    </>
  )
}

type StripProps = { choices: FilingChoices; lines: { value: string; label: string }[]; title: string | null }

const Strip = ({ choices, lines, title }: StripProps) => (
  <FormStrip
    action="/places/filing"
    label={say('What is filed, and how')}
    summary={
      title
        ? say('{title}, {order}; {capacity} in a drawer, kept {fill} % full', {
            title,
            order: orderWords[choices.order],
            capacity: choices.capacity,
            fill: choices.fill,
          })
        : say('Choose a line')
    }
    startsOpen={title === null}
    second={
      <>
        <StripStep name="capacity" label={say('A drawer holds')} unit={say('compartments')} value={choices.capacity} max={400} />
        <StripStep name="fill" label={say('Kept full to')} unit="%" value={choices.fill} max={100} />
        {title && (
          <StripCheck
            name="unplaced"
            label={say('Also what is held and has no place yet')}
            isChecked={choices.unplaced === '1'}
          />
        )}
      </>
    }
  >
    <StripSelect name="line" label={say('Line')} value={choices.line} any={say('choose one')} options={lines} />
    <StripSelect
      name="order"
      label={say('Order')}
      value={choices.order}
      options={filingOrders.map((order) => ({ value: order, label: orderWords[order] }))}
    />
    <StripText name="codes" label={say('Codes to come in')} value={choices.codes} placeholder="0481-0516, 0017" />
  </FormStrip>
)
