import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { designQuerySchema } from '#lib/chart/design-query'
import type { Answers } from '#lib/db/answers/answers'
import { findDesigns } from '#lib/db/answers/find-designs'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type BuyListRow, readBuyList } from '#lib/db/order/read-buy-list'
import { buyingStatuses, mostWanted, readWants } from '#lib/db/order/read-wants'
import { listProjectsUnderWay } from '#lib/db/project/queries'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { WordsUsed } from '#trade/word'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import type { Column } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { UnfoldButton } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed, threadLength } from '#words/amounts'
import { calendarDay } from '#words/date'
import { priceWords } from '#words/price'
import s from './buy.module.css'
import { BuyParts } from './buy-parts'
import { BuySum } from './buy-sum'
import { DesignPicker } from './design-picker'
import { type BuyChoices, buyChoicesSchema, buyHref } from './filter'
import { OrderGroup } from './order-group'
import { SoldAs } from './sold-as'
import { TakeToShop } from './take-to-shop'
import { ThreadCell } from './thread-cell'
import { buyNotes, mixWords, putUpWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Buy') })

const designsFound = 8

type BuyPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function BuyPage({ searchParams }: BuyPageProps) {
  const choices = buyChoicesSchema.parse(await searchParams)
  const [{ settings, owners, ownerIds, ownerName }, answers] = await Promise.all([getViewer(), getAnswers()])
  const unit = settings.threadUnit
  const [wanted, underWay] = await Promise.all([
    readWants(answers, {
      ...{ designIds: choices.design, listIds: choices.list, projectIds: choices.project, ownerIds },
      isLeastBuying: true,
    }),
    listProjectsUnderWay({ ownerIds, page: 1, perPage: mostWanted }),
  ])
  const list = await readBuyList(
    answers,
    wanted.map(({ want }) => want),
    ownerIds,
  )
  const titles = new Map(wanted.map(({ want, title }) => [want.key, title]))
  const toShow = list.filter(({ line }) => line.putUps > 0 || line.onOrderStrandTenths > 0 || line.onListStrandTenths > 0)
  const makers = new Map<string, { makerName: string; rows: BuyListRow[] }>()
  for (const row of toShow) {
    const { makerId, makerName } = row.thread.line
    const group = makers.get(makerId)
    if (group) group.rows.push(row)
    else makers.set(makerId, { makerName, rows: [row] })
  }
  const shown = [...makers].filter(([makerId]) => choices.maker === '' || choices.maker === makerId)
  const today = calendarDay(new Date())
  return (
    <>
      <PageHead
        title={say('Buy')}
        note={say('for designs chosen')}
        byline={say(
          'One list by maker for everything chosen, from the stock of {ownerName}. Whole put-ups, summed before rounding; what is free, on order or on a list is taken off once. Each thread as it costs least.',
          { ownerName: ownerName || say('nobody yet') },
        )}
      >
        {wanted.length > 0 && <p>{listSentence(list)}</p>}
      </PageHead>
      <BuyParts current="/buy" />
      <PrintLine>
        {sayParts('To buy for {wanted}; {ownerName}, {today}', {
          wanted: listed(wanted.map(({ title }) => title)),
          ownerName,
          today: formatDate(today),
        })}
      </PrintLine>
      <DesignPicker
        choices={choices}
        wanted={wanted}
        found={foundDesigns(answers, choices, ownerIds)}
        projects={underWay.rows
          .filter(({ status }) => (buyingStatuses as readonly string[]).includes(status))
          .map(({ id, design, status, quantity, forWhom }) => ({ id, title: design.title, status, quantity, forWhom }))}
      />
      {wanted.length === 0 ? (
        <Empty title={say('Nothing chosen yet')}>
          {say(
            'Add designs by searching above, or press “Add” beside a project. The list then says what is to be bought for all of them together.',
          )}
        </Empty>
      ) : toShow.length === 0 ? (
        <Notice kind="done" title={say('Nothing to buy: all of it is free, or promised to them already.')} />
      ) : (
        <>
          <TakeToShop choices={choices} wanted={wanted} list={list} owners={owners} ownerIds={ownerIds} />
          <ListLinks choices={choices} makers={[...makers].map(([id, { makerName }]) => ({ id, makerName }))} />
          <WordsUsed of={['need', 'free', 'put-up', 'lot', 'kit-cut']} />
          {shown.map(([makerId, { makerName, rows }]) => (
            <OrderGroup
              key={makerId}
              title={makerName}
              rows={rows}
              columns={columnsFor({ unit, currency: choices.prices ? settings.currency : null })}
              itemOf={({ line, thread }) => ({
                thread,
                putUps: line.standing === 'buy' ? line.putUps : 0,
                putUpStrandTenths: line.putUpStrandTenths,
                lot: line.sameLot?.lot ?? null,
              })}
              under={(row) => (
                <>
                  <BuySum
                    row={row}
                    titleOf={(key) => titles.get(key) ?? ''}
                    unit={unit}
                    currency={choices.prices ? settings.currency : null}
                  />
                  <SoldAs row={row} unit={unit} currency={choices.prices ? settings.currency : null} />
                </>
              )}
              foot={footWords(rows, choices.prices ? settings.currency : null)}
              supplier={makerName}
              owners={owners.filter(({ id }) => ownerIds.includes(id))}
              today={today}
            />
          ))}
        </>
      )}
    </>
  )
}

function foundDesigns(answers: Answers, choices: BuyChoices, ownerIds: readonly string[]) {
  if (choices.q === '') return []
  const query = designQuerySchema.parse({ q: choices.q, order: 'title' })
  return findDesigns(answers, query, ownerIds, designsFound).records.map(({ designId, title, chartTitle }) => ({
    id: designId,
    title,
    chartTitle,
  }))
}

function listSentence(list: readonly BuyListRow[]): string {
  const firm = list.filter(({ line }) => line.standing === 'buy')
  const perhaps = list.filter(({ line }) => line.putUps > 0 && line.standing !== 'buy')
  const putUps = firm.reduce((sum, { line }) => sum + line.putUps, 0)
  return [
    say('{list, plural, one {# thread} other {# threads}} needed: {rest}.', {
      list: list.length,
      rest:
        firm.length === 0
          ? say('none to buy')
          : say('{putUps, plural, one {# put-up} other {# put-ups}} of {firm, plural, one {# thread} other {# threads}} to buy', {
              putUps,
              firm: firm.length,
            }),
    }),
    ...(perhaps.length > 0
      ? [
          say('{perhaps, plural, one {# thread} other {# threads}} more only if what is at hand will not do.', {
            perhaps: perhaps.length,
          }),
        ]
      : []),
  ].join(' ')
}

/** What is to be bought costs; null when no price is known. */
const priceOf = ({ line, thread, mix }: BuyListRow): number | null =>
  mix ? mix.priceMinor : thread.priceMinor === null ? null : thread.priceMinor * line.putUps

function footWords(rows: readonly BuyListRow[], currency: string | null): string {
  const firm = rows.filter(({ line }) => line.standing === 'buy')
  const putUps = counted(
    firm.reduce((sum, { line }) => sum + line.putUps, 0),
    'put-up',
  )
  if (firm.length === 0) return say('Nothing that must be bought')
  if (currency === null) return say('{putUps} to buy', { putUps })
  const known = firm.filter((row) => priceOf(row) !== null)
  const price = known.reduce((sum, row) => sum + (priceOf(row) ?? 0), 0)
  const unknown = firm.length - known.length
  if (known.length === 0) return say('{putUps} to buy, no price known', { putUps })
  return say('{putUps} to buy, {price}{rest}', {
    putUps,
    price: priceWords(price, currency),
    rest: unknown > 0 ? say(' and {unknown, plural, one {# thread} other {# threads}} without a price', { unknown }) : '',
  })
}

/** One maker alone, and prices on or off: for the printer. Prices are on the list only when asked for. */
function ListLinks({ choices, makers }: { choices: BuyChoices; makers: readonly { id: string; makerName: string }[] }) {
  return (
    <p className={`no-print ${s.links}`}>
      {makers.length > 1 &&
        [{ id: '', makerName: say('All makers') }, ...makers].map(({ id, makerName }) =>
          id === choices.maker ? (
            <b key={id}>{makerName}</b>
          ) : (
            <LinkButton key={id} kind="quiet" href={buyHref({ ...choices, maker: id })}>
              {makerName}
            </LinkButton>
          ),
        )}
      <LinkButton kind="quiet" href={buyHref({ ...choices, prices: !choices.prices })}>
        {choices.prices ? say('Leave prices off') : say('With prices')}
      </LinkButton>
    </p>
  )
}

function columnsFor({ unit, currency }: { unit: ThreadLengthUnit; currency: string | null }): Column<BuyListRow>[] {
  const length = ({ thread }: BuyListRow, strandTenths: number) => threadLength(strandTenths, thread.line.strands, unit)
  const priceColumn = {
    key: 'price',
    head: say('Price'),
    isNumeric: true,
    phone: 'labelled',
    cell: (row: BuyListRow) => {
      const price = priceOf(row)
      return row.line.putUps === 0 ? '' : price === null ? say('not known') : priceWords(price, currency ?? '')
    },
  } as const
  return [
    { key: 'thread', head: say('Thread'), phone: 'lead', width: '17rem', cell: ({ thread }) => <ThreadCell thread={thread} /> },
    {
      key: 'need',
      head: say('Need'),
      isNumeric: true,
      phone: 'labelled',
      cell: (row) => length(row, row.line.needStrandTenths),
    },
    {
      key: 'free',
      head: say('Free'),
      isNumeric: true,
      phone: 'labelled',
      cell: (row) => (
        <>
          {row.line.freeStrandTenths > 0 ? length(row, row.line.freeStrandTenths) : say('none')}
          {row.line.onOrderStrandTenths > 0 && (
            <span className={s.under}>
              {sayParts('+ {length} on order', { length: length(row, row.line.onOrderStrandTenths) })}
            </span>
          )}
          {row.line.onListStrandTenths > 0 && (
            <span className={s.under}>
              {sayParts('+ {length} on a list', { length: length(row, row.line.onListStrandTenths) })}
            </span>
          )}
        </>
      ),
    },
    {
      key: 'buy',
      head: say('Buy'),
      phone: 'line',
      cell: (row) => {
        const { line, thread, mix } = row
        const mixed = mix && mixWords(mix, thread, { unit, withSuppliers: currency !== null })
        const isListed = line.onListStrandTenths > 0
        return (
          <>
            <UnfoldButton>
              {line.putUps === 0 ? (
                say('enough is on {isListed}', {
                  isListed: isListed ? (line.onOrderStrandTenths > 0 ? say('order and on a list') : say('a list')) : say('order'),
                })
              ) : (
                <span className={line.standing === 'buy' ? s.do : undefined}>{mixed ?? putUpWords(line.putUps, thread)}</span>
              )}
            </UnfoldButton>
            {(line.putUps > 0 || isListed) &&
              buyNotes(row, { unit }).map((note) => (
                <span key={note} className={s.under}>
                  {note}
                </span>
              ))}
          </>
        )
      },
    },
    ...(currency === null ? [] : [priceColumn]),
  ]
}
