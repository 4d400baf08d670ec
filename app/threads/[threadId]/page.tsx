import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { cache } from 'react'
import { findThread, type HeldBatch, movementsShown, type StandInRow, type ThreadPage } from '#lib/db/thread/find-thread'
import { summariseStock } from '#lib/db/thread/summarise-stock'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { isOut } from '#lib/stock/batch'
import { DrawerFront } from '#trade/drawer-front'
import { PlaceLabel } from '#trade/place-label'
import { ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { JumpMarks } from '#ui/jump-marks'
import { type Column, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, listed, plural, threadLength } from '#words/amounts'
import { dayOf } from '#words/date'
import { heldWords, partWords } from '#words/stock'
import { lineTitle, threadTitle } from '#words/thread'
import { addStandInAction, removeStandInAction } from '../actions'
import { formatStrandBoth } from '../amounts'
import { releaseAction, returnAction } from '../batch-actions'
import { ThreadMark } from '../thread-mark'
import s from '../threads.module.css'
import { describeMovement, describeWayBack, movementsToTell } from '../words'

type ThreadPageProps = {
  params: Promise<{ threadId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

const getPage = cache(async (threadId: string) => {
  const viewer = await getViewer()
  const thread = await findThread(threadId, { ownerIds: viewer.ownerIds })
  if (!thread) notFound()
  return { thread, viewer }
})

export async function generateMetadata({ params }: ThreadPageProps): Promise<Metadata> {
  const { thread } = await getPage((await params).threadId)
  return { title: threadTitle(thread) }
}

export default async function OneThreadPage({ params, searchParams }: ThreadPageProps) {
  const { thread, viewer } = await getPage((await params).threadId)
  const { did } = await searchParams
  const { line, batches } = thread
  const unit = viewer.settings.threadUnit
  const told = movementsToTell(thread.movements)
  const justDone = told.filter(({ revision }) => String(revision) === did)
  const words = { strands: line.strands, unit, putUpWord: line.putUpWord }
  return (
    <>
      <PageHead
        crumbs={[
          { label: 'Threads', href: '/threads' },
          { label: lineTitle(line), href: `/threads?line=${line.id}` },
          { label: thread.code },
        ]}
        title={
          <span className={s.head}>
            <ThreadMark lab={thread.lab} dyeing={line.dyeing} size="large" />
            <span>
              {thread.code} {thread.name}
            </span>
          </span>
        }
        byline={
          <>
            {lineTitle(line)}
            {line.fibre && `, ${line.fibre}`}, {line.dyeing === 'overdyed' ? 'overdyed or hand-dyed' : line.dyeing},{' '}
            {line.strands === 1 ? 'not parted' : `${line.strands} strands`}, one {line.putUpWord} is{' '}
            {formatStrandBoth(line.putUpStrandTenths, line.strands, unit)}
            {line.lotsMatter && '. Its dye lots are kept apart'}.
          </>
        }
        actions={
          <>
            <LinkButton kind="first" href={`/threads/${thread.id}/receive`}>
              Take some in
            </LinkButton>
            <LinkButton href={`/threads/${thread.id}/edit`}>Change</LinkButton>
          </>
        }
      >
        <StockSentence thread={thread} ownerIds={viewer.ownerIds} unit={unit} />
      </PageHead>
      {justDone.map((movement) => (
        <Notice key={movement.id} kind="done" title={`${describeMovement(movement, words)}.`}>
          {describeWayBack(movement.kind)}
        </Notice>
      ))}
      {thread.note && <p className={`${s.note} ${s.gap}`}>{thread.note}</p>}
      {line.dyeing === 'overdyed' && (
        <div className={s.gap}>
          <Notice kind="caution" title="Hand-dyed and overdyed thread can bleed.">
            Test the thread and the cloth wet on white before washing the piece; a pass is no guarantee. For anything old, fragile
            or valuable ask a conservator first.
          </Notice>
        </div>
      )}
      <JumpMarks
        items={[
          { href: '#stock', label: 'Stock' },
          { href: '#designs', label: 'Designs', note: String(thread.designCount) },
          { href: '#stand-ins', label: 'Stand-ins' },
          { href: '#history', label: 'History' },
        ]}
      />
      <Where batches={batches} />
      <Stock thread={thread} unit={unit} hasOwners={viewer.owners.length > 1} />
      <Promises thread={thread} unit={unit} />
      <Designs thread={thread} />
      <StandIns thread={thread} />
      <Section
        title="History"
        id="history"
        note={thread.movements.length === movementsShown ? `The last ${movementsShown} entries.` : undefined}
      >
        {told.length === 0 ? (
          <p className="quiet">Nothing has come in or gone out yet.</p>
        ) : (
          <ol className={s.history}>
            {told.map((movement) => (
              <li key={movement.id}>
                <time dateTime={movement.at.toISOString()}>{dayOf(movement.at)}</time>
                <span>
                  {describeMovement(movement, words)}
                  {movement.reason && `: ${movement.reason}`}
                  {movement.who && <span className="quiet"> ({movement.who})</span>}
                </span>
              </li>
            ))}
          </ol>
        )}
      </Section>
    </>
  )
}

type StockSentenceProps = { thread: ThreadPage; ownerIds: readonly string[]; unit: ThreadLengthUnit }

/** The page's own answer: what is free, and why that is not all. */
function StockSentence({ thread, ownerIds, unit }: StockSentenceProps) {
  const { line, minimumPutUps, otherOwners } = thread
  const stock = summariseStock({
    threadId: thread.id,
    batches: thread.batches.map(({ batch }) => batch),
    promises: thread.batches.flatMap(({ promises }) => promises),
    ownerIds,
    minimumPutUps,
  })
  const length = (strandTenths: number) => formatStrandBoth(strandTenths, line.strands, unit)
  return (
    <>
      {stock.states.includes('none') ? (
        <p>
          <strong>None held.</strong>
        </p>
      ) : (
        <>
          <p>
            <strong>
              {stock.freeStrandTenths > 0
                ? `${length(stock.freeStrandTenths)} free`
                : stock.isSomeHeld
                  ? 'Some, length unknown'
                  : 'None free'}
            </strong>
            {stock.freePutUps > 0 && `, ${counted(stock.freePutUps, line.putUpWord)} of it whole`}
            {stock.freeStrandTenths > 0 && stock.isSomeHeld && ', and some of unknown length'}.
          </p>
          <Facts
            items={[
              { label: 'Owned', value: length(stock.ownedStrandTenths) },
              { label: 'Out', value: stock.outStrandTenths > 0 ? length(stock.outStrandTenths) : 'none' },
              { label: 'Promised', value: stock.promisedStrandTenths > 0 ? length(stock.promisedStrandTenths) : 'none' },
              ...(minimumPutUps === null ? [] : [{ label: 'Keep', value: counted(minimumPutUps, line.putUpWord) }]),
            ]}
          />
        </>
      )}
      {stock.states.includes('low') && (
        <p className={`${s.do} ${s.gap}`}>
          Low: {counted(stock.freePutUps, line.putUpWord)} free, {minimumPutUps} to keep.
        </p>
      )}
      {otherOwners.length > 0 && <p className="quiet">Also held by {listed(otherOwners)}.</p>}
    </>
  )
}

/** Each place that holds some, drawn. */
function Where({ batches }: { batches: readonly HeldBatch[] }) {
  const holding = batches.filter(({ batch }) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
  const fronts = new Map(
    holding.flatMap(({ batch, current, home }) => {
      const place = current ?? home
      return place ? [[place.id, { place, isAway: isOut(batch), home: home?.label }] as const] : []
    }),
  )
  if (fronts.size === 0) return null
  return (
    <Section title="Where it is">
      <ul className={s.fronts}>
        {[...fronts.values()].map(({ place, isAway, home }) => (
          <li key={place.id}>
            <DrawerFront label={place.label} kind={place.kind} href={`/places/${place.id}`} isAway={isAway} />
            <span className={s.path}>
              {[...place.above.map(({ label }) => label), place.label].join(' › ')}
              {isAway && home && <>, out of {home}</>}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}

type StockProps = { thread: ThreadPage; unit: ThreadLengthUnit; hasOwners: boolean }

function Stock({ thread, unit, hasOwners }: StockProps) {
  const { line, batches } = thread
  const columns: Column<HeldBatch>[] = [
    {
      key: 'lot',
      head: 'Lot',
      cell: ({ batch, ownerName }) => (
        <>
          {batch.lot ? (
            <>
              Lot <b>{batch.lot}</b>
            </>
          ) : (
            'No lot mark'
          )}
          {hasOwners && <span className={s.under}>{ownerName}</span>}
        </>
      ),
      phone: 'lead',
    },
    {
      key: 'whole',
      head: `Whole ${plural(line.putUpWord)}`,
      cell: ({ batch }) => (
        <>
          {batch.wholePutUps > 0 ? counted(batch.wholePutUps, line.putUpWord) : 'none'}
          {batch.putUpStrandTenths !== line.putUpStrandTenths && (
            <span className={s.under}>of {threadLength(batch.putUpStrandTenths, line.strands, unit)}</span>
          )}
        </>
      ),
      phone: 'labelled',
    },
    {
      key: 'part',
      head: 'Part',
      cell: ({ batch }) => partWords(batch, line.strands, unit) || 'none',
      phone: 'labelled',
    },
    {
      key: 'promised',
      head: 'Promised',
      cell: ({ promises }) => {
        const sum = promises.reduce((total, promise) => total + promise.strandTenths, 0)
        return sum > 0 ? threadLength(sum, line.strands, unit) : 'none'
      },
      isNumeric: true,
      phone: 'labelled',
    },
    {
      key: 'place',
      head: 'Place',
      cell: ({ batch, home, current, outSince }) => {
        const place = current ?? home
        if (!place) return <span className="faint">no place yet</span>
        const out = isOut(batch) && home ? { livesIn: home.label, note: outSince && `since ${dayOf(outSince)}` } : {}
        return <PlaceLabel label={place.label} href={`/places/${place.id}`} {...out} />
      },
      isAtEnd: true,
      phone: 'side',
    },
    {
      key: 'do',
      head: 'Do',
      headIsHidden: true,
      cell: ({ batch }) => (
        <UnfoldButton label={`What to do with ${heldWords(batch, line, unit)}${batch.lot ? ` of lot ${batch.lot}` : ''}`}>
          Do
        </UnfoldButton>
      ),
      isAtEnd: true,
      phone: 'wide',
      isOffPaper: true,
    },
  ]
  return (
    <Section title="Stock" id="stock">
      {batches.length === 0 ? (
        <Empty>None of it is on record here. Take some in, and it stands here with its lot and its place.</Empty>
      ) : (
        <Ledger
          caption={`Stock of ${threadTitle(thread)}`}
          columns={columns}
          rows={batches}
          rowKey={({ batch }) => batch.id}
          under={(held) => <BatchActions thread={thread} held={held} hasOwners={hasOwners} />}
        />
      )}
    </Section>
  )
}

/** What can be done with one batch. A button acts, a link asks first. */
function BatchActions({ thread, held, hasOwners }: { thread: ThreadPage; held: HeldBatch; hasOwners: boolean }) {
  const { batch, home, version } = held
  const to = (verb: string) => `/threads/${thread.id}/batches/${batch.id}/${verb}`
  const isEmpty = batch.wholePutUps === 0 && batch.partCertainty === 'none'
  return (
    <div className={s.actions}>
      {isOut(batch) && !isEmpty && (
        <Form
          label={`Put back into ${home?.label}`}
          action={returnAction}
          submit={`Put back into ${home?.label}`}
          hidden={{ batchId: batch.id, version: String(version) }}
        />
      )}
      <ButtonRow>
        {!isEmpty && (
          <>
            <LinkButton href={to('use')}>Use some</LinkButton>
            <LinkButton href={to('take')}>Take to another place</LinkButton>
          </>
        )}
        <LinkButton href={to('move')}>Move</LinkButton>
        <LinkButton href={to('correct')}>Correct the figure</LinkButton>
        <LinkButton href={to('relabel')}>Correct the label</LinkButton>
        {hasOwners && !isEmpty && <LinkButton href={to('pass-on')}>Pass to another owner</LinkButton>}
      </ButtonRow>
    </div>
  )
}

function Promises({ thread, unit }: { thread: ThreadPage; unit: ThreadLengthUnit }) {
  const promises = thread.batches.flatMap(({ batch, promises: made }) => made.map((promise) => ({ ...promise, lot: batch.lot })))
  if (promises.length === 0) return null
  return (
    <Section title="Promised" note="Set aside for a project and not free to others.">
      <ul className={s.list}>
        {promises.map((promise) => (
          <li key={promise.id}>
            <span>
              {threadLength(promise.strandTenths, thread.line.strands, unit)}
              {promise.lot && ` of lot ${promise.lot}`} for{' '}
              <Link href={`/projects/${promise.projectId}`} className="title">
                {promise.title}
              </Link>
            </span>
            <ConfirmDialog
              opener={
                <>
                  Release<span className="vh"> what {promise.title} was promised</span>
                </>
              }
              openerKind="quiet"
              title={`Release what ${promise.title} was promised?`}
              confirm="Release it"
              action={releaseAction}
              hidden={{ projectId: promise.projectId, batchId: promise.batchId, threadId: thread.id }}
            >
              <p>It becomes free to every project. The project can be promised it again from its own page while it lasts.</p>
            </ConfirmDialog>
          </li>
        ))}
      </ul>
    </Section>
  )
}

function Designs({ thread }: { thread: ThreadPage }) {
  const { designs, designCount } = thread
  const rest = designCount - designs.length
  return (
    <Section
      title="Designs that use it"
      id="designs"
      note={designCount === 0 ? undefined : `${counted(designCount, 'design')}, by title.`}
    >
      {designs.length === 0 ? (
        <p className="quiet">No key names it yet.</p>
      ) : (
        <ul className={s.list}>
          {designs.map((design) => (
            <li key={design.id}>
              <span>
                <Link href={`/designs/${design.id}`} className="title">
                  {design.title}
                </Link>
                {design.chartTitle !== design.title && (
                  <small>
                    in <span className="title">{design.chartTitle}</span>
                  </small>
                )}
              </span>
              <span className="quiet">{design.lists.map((list) => list.name || 'its one list').join(', ')}</span>
            </li>
          ))}
        </ul>
      )}
      {rest > 0 && <p className="quiet">And {rest} more.</p>}
    </Section>
  )
}

function StandIns({ thread }: { thread: ThreadPage }) {
  const { standIns, standsInFor } = thread
  return (
    <Section title="Stand-ins" id="stand-ins" note="Opinions, one way, never passed along from one to the next.">
      <div className={s.columns}>
        <div>
          <h3>What may stand in for it</h3>
          <StandInList rows={standIns} none="None named yet." canRemove />
          <div className={s.gap}>
            <Form
              label="Add a stand-in"
              action={addStandInAction}
              submit="Add the stand-in"
              submitKind="plain"
              hidden={{ threadId: thread.id }}
              clearsWhenDone
            >
              <FieldRow>
                <TextField name="standIn" label="Thread" hint="Maker and exact code." placeholder="Larkholm 0017" />
                <TextField
                  name="source"
                  label="Who says so"
                  hint="A list, a friend, your own look by daylight."
                  maxLength={300}
                />
              </FieldRow>
            </Form>
          </div>
        </div>
        <div>
          <h3>What it may stand in for</h3>
          <StandInList rows={standsInFor} none="Nothing named yet." />
        </div>
      </div>
    </Section>
  )
}

function StandInList({ rows, none, canRemove = false }: { rows: readonly StandInRow[]; none: string; canRemove?: boolean }) {
  if (rows.length === 0) return <p className="quiet">{none}</p>
  return (
    <ul className={s.list}>
      {rows.map(({ standInId, source, thread }) => (
        <li key={standInId}>
          <span className={s.head}>
            <ThreadMark lab={thread.lab} dyeing={thread.line.dyeing} />
            <span>
              <Link href={`/threads/${thread.id}`}>{threadTitle(thread)}</Link>
              {source && <small>{source}</small>}
            </span>
          </span>
          {canRemove && (
            <ConfirmDialog
              opener={
                <>
                  Take off<span className="vh"> {threadTitle(thread)}</span>
                </>
              }
              openerKind="quiet"
              title={`No longer let ${threadTitle(thread)} stand in?`}
              confirm="Take it off"
              action={removeStandInAction}
              hidden={{ standInId }}
            >
              <p>Designs that counted on it are reckoned anew. It can be added again.</p>
            </ConfirmDialog>
          )}
        </li>
      ))}
    </ul>
  )
}
