import type { Metadata } from 'next'
import { numberText } from '#language/figures'
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

export const metadata: Metadata = { title: 'Filing plan' }

const crumbs = [{ label: 'Places', href: '/places' }, { label: 'Filing plan' }]

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
          title="Filing plan"
          crumbs={crumbs}
          byline="Which thread goes in which drawer, and what to move when a range grows."
        />
        {lines.length > 0 ? (
          <>
            {strip}
            <Empty title="Choose a line">
              Its drawers are found from where its threads live. Then say which codes are to come in, and see the fewest moves
              that make room.
            </Empty>
          </>
        ) : (
          <Empty title="No threads yet" actions={<LinkButton href="/threads/new">Add a thread</LinkButton>}>
            Once threads are on record, their drawers can be planned here.
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
        title="Filing plan"
        note={lineTitle(line)}
        crumbs={crumbs}
        byline={`Stock of ${ownerName || 'nobody yet'}, filed ${orderWords[choices.order]}.`}
      />
      <PrintLine>
        {lineTitle(line)}, {orderWords[choices.order]}; {dayOf(new Date())}
      </PrintLine>
      {strip}
      {parseCodeList(choices.codes).length > mostCodes && (
        <Notice kind="caution" title={`Only the first ${numberText(mostCodes)} codes are planned.`}>
          Carry these out, then bring in the rest.
        </Notice>
      )}
      {filing.drawers.length === 0 ? (
        <Empty title="This line lives nowhere yet" actions={<LinkButton href="/threads">Give its threads a home</LinkButton>}>
          None of {ownerName}’s threads of it has a home. Below is how it would lie in drawers of its own.
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
    label="What is filed, and how"
    summary={
      title
        ? `${title}, ${orderWords[choices.order]}; ${choices.capacity} in a drawer, kept ${choices.fill} % full`
        : 'Choose a line'
    }
    startsOpen={title === null}
    second={
      <>
        <StripStep name="capacity" label="A drawer holds" unit="compartments" value={choices.capacity} max={400} />
        <StripStep name="fill" label="Kept full to" unit="%" value={choices.fill} max={100} />
        {title && (
          <StripCheck name="unplaced" label="Also what is held and has no place yet" isChecked={choices.unplaced === '1'} />
        )}
      </>
    }
  >
    <StripSelect name="line" label="Line" value={choices.line} any="choose one" options={lines} />
    <StripSelect
      name="order"
      label="Order"
      value={choices.order}
      options={filingOrders.map((order) => ({ value: order, label: orderWords[order] }))}
    />
    <StripText name="codes" label="Codes to come in" value={choices.codes} placeholder="0481-0516, 0017" />
  </FormStrip>
)
