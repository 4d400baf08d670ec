import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findKitLots, type KitLotFound } from '#lib/db/kit-bag/find-kit-lots'
import { listThreadsCalled } from '#lib/db/thread/find-thread'
import { readThreadTags } from '#lib/db/thread/thread-tag'
import { numbersOf } from '#lib/project/kit/record'
import { Word, WordsUsed } from '#trade/word'
import { Button, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { DateField, FieldRow, TextField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { bagsText, bagsWords } from '#words/kit'
import { threadName } from '#words/thread'
import { ThreadCell } from '../_things/thread-cell'
import s from './kits.module.css'
import { type KitsQuery, kitsPageSchema } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Kit records') })

type PageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

const perPage = 50

/** Which batch of kits had the wrong red: every batch record, by thread, lot, batch and day. */
export default async function KitsPage({ searchParams }: PageProps) {
  const query = kitsPageSchema.parse(await searchParams)
  const [{ ownerIds, ownerName }, threadIds] = await Promise.all([getViewer(), threadIdsOf(query)])
  const isUnknown = threadIds?.length === 0
  const found = isUnknown
    ? { rows: [], total: 0 }
    : await findKitLots({
        ...{ ownerIds, threadIds, lot: query.lot, batchId: query.batch, offset: (query.page - 1) * perPage, limit: perPage },
        ...{ from: query.from ? new Date(`${query.from}T00:00:00`) : undefined, before: dayAfter(query.to) },
      })
  const named = query.threadId ? (await readThreadTags([query.threadId])).get(query.threadId) : undefined
  const isAsked = Boolean(query.thread || query.threadId || query.lot || query.batch || query.from || query.to)
  const pages = Math.max(1, Math.ceil(found.total / perPage))
  return (
    <>
      <PageHead
        title={say('Kit records')}
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Kit records') }]}
        byline={say('Which kits had this thread, this lot, this batch; and who has them. Of {ownerName}.', { ownerName })}
      />
      <WordsUsed of={['kit-batch', 'kit-cut']} />
      <form className={s.ask} aria-label={say('Search the kit records')}>
        {query.batch && <input type="hidden" name="batch" value={query.batch} />}
        <FieldRow>
          <TextField
            name="thread"
            label={say('Thread')}
            defaultValue={query.thread ?? (named && threadName({ ...named, name: null }))}
            placeholder={say('Larkholm 0311')}
            hint={say('Maker and exact code, or the code')}
            width="half"
          />
          <TextField
            name="lot"
            label={<Word of="lot">{say('Lot')}</Word>}
            defaultValue={query.lot}
            hint={say('As the band says it, exact')}
            width="half"
          />
        </FieldRow>
        <FieldRow>
          <DateField name="from" label={say('Cut from')} defaultValue={query.from} />
          <DateField name="to" label={say('Cut until')} defaultValue={query.to} />
        </FieldRow>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            {say('Find the kits')}
          </Button>
          {isAsked && <Link href="/kits">{say('Show all')}</Link>}
        </div>
      </form>
      {isUnknown && (
        <Notice kind="refusal" title={say('No thread is called {thread}.', { thread: query.thread })}>
          {say('Give maker and exact code, such as Larkholm 0017.')}
        </Notice>
      )}
      {query.batch && <p className={s.note}>{say('Only what was cut from one batch of stock.')}</p>}
      {found.rows.length === 0 ? (
        !isUnknown && (
          <Empty
            title={isAsked ? say('No kit has it') : say('No kits are cut yet')}
            actions={<LinkButton href="/projects">{say('Projects with kits')}</LinkButton>}
          >
            {isAsked
              ? say('No batch record names it. A lot is kept as it was when the thread was cut.')
              : say('When threads are cut for the bags of a batch of kits, the record of their lots comes here.')}
          </Empty>
        )
      ) : (
        <>
          <Found rows={found.rows} />
          <Pager
            page={query.page}
            pages={pages}
            hrefForPage={(page) => hrefOf({ ...query, page })}
            shown={counted(found.total, 'line')}
          />
        </>
      )}
    </>
  )
}

function Found({ rows }: { rows: readonly KitLotFound[] }) {
  return (
    <Ledger
      caption={say('Kits by the stock that went into them, the latest cut first')}
      rows={rows}
      rowKey={({ id }) => id}
      columns={[
        {
          key: 'kits',
          head: say('Kits'),
          cell: ({ project, fromBag, toBag }) =>
            sayParts('{title}, {bags} of {quantity}', {
              title: (
                <Link href={`/projects/${project.id}/kit/record`} className="title">
                  {project.title}
                </Link>
              ),
              bags: <b>{bagsWords(numbersOf({ fromBag, toBag }))}</b>,
              quantity: project.quantity,
            }),
          phone: 'lead',
        },
        {
          key: 'thread',
          head: say('Thread'),
          cell: ({ thread }) => <ThreadCell thread={thread} />,
          phone: 'line',
        },
        { key: 'lot', head: say('Lot'), cell: ({ lot }) => lot ?? say('unmarked'), phone: 'side' },
        { key: 'cut', head: say('Cut'), cell: ({ at, who }) => [dayOf(at), who].filter(Boolean).join(', '), phone: 'labelled' },
        { key: 'where', head: say('Where they are'), cell: (row) => <Whereabouts bags={row.bags} />, phone: 'line' },
      ]}
    />
  )
}

/** Sold ones by whom they went to; the rest by where they stand. */
function Whereabouts({ bags }: Pick<KitLotFound, 'bags'>) {
  const here = bags.filter(({ status }) => status !== 'sold').map(({ number }) => number)
  const sold = bags.filter(({ status }) => status === 'sold')
  return (
    <>
      {here.length > 0 && <div>{say('still here: {bags}', { bags: bagsText(here) })}</div>}
      {sold.map(({ number, soldTo }) => (
        <div key={number}>
          {bagsWords([number])}: {soldTo ?? say('sold, nobody noted to whom')}
        </div>
      ))}
    </>
  )
}

/** What the query names by its thread; undefined where it names none, empty where nothing is called so. */
async function threadIdsOf({ thread, threadId }: KitsQuery): Promise<string[] | undefined> {
  if (thread) return (await listThreadsCalled(thread)).map(({ id }) => id)
  return threadId ? [threadId] : undefined
}

function dayAfter(day: string | undefined): Date | undefined {
  if (!day) return undefined
  const next = new Date(`${day}T00:00:00`)
  next.setDate(next.getDate() + 1)
  return next
}

function hrefOf({ page, ...query }: KitsQuery): string {
  const parameters = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) if (value) parameters.set(name, value)
  if (page > 1) parameters.set('page', String(page))
  return `/kits?${parameters}`
}
