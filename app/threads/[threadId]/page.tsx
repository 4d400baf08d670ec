import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { cache } from 'react'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readListed } from '#lib/db/buying/queries'
import { findMergedInto } from '#lib/db/merging/merging'
import { readThreadStory } from '#lib/db/movement/thread-story'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { findThread, type ThreadPage } from '#lib/db/thread/find-thread'
import { listThreadUses } from '#lib/db/thread/thread-uses'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { BrokenPromises } from '#trade/broken-promises'
import { Word } from '#trade/word'
import { LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { JumpMarks } from '#ui/jump-marks'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Sum } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, singular } from '#words/amounts'
import { givenName } from '#words/given'
import { dyedWords } from '#words/swaps'
import { lineTitle, threadTitle } from '#words/thread'
import { formatStrandBoth } from '../amounts'
import { ThreadMark } from '../thread-mark'
import s from '../threads.module.css'
import { describeMovement, describeWayBack, movementsToTell } from '../words'
import { BarcodesSection } from './barcodes-section'
import { OrderSection } from './order-section'
import { ProjectsSection } from './projects-section'
import { StandInsSection } from './stand-ins-section'
import { OwnersSection, StockSection, WhereInShort, WhereItIs } from './stock-section'
import { FormerHomes, StorySection } from './story-section'
import { UsesSection } from './uses-section'

type ThreadPageProps = {
  params: Promise<{ threadId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

const pageNumber = z.coerce.number().int().min(1).max(1_000_000).catch(1)
const querySchema = z.object({ did: z.string().optional().catch(undefined), story: pageNumber, designs: pageNumber })

const getPage = cache(async (threadId: string) => {
  const viewer = await getViewer()
  const thread = await findThread(threadId, { ownerIds: viewer.ownerIds })
  if (!thread) {
    const into = await findMergedInto('thread', threadId)
    if (into) redirect(`/threads/${into.keptId}`)
    notFound()
  }
  return { thread, viewer }
})

export async function generateMetadata({ params }: ThreadPageProps): Promise<Metadata> {
  const { thread } = await getPage((await params).threadId)
  return { title: threadTitle(thread) }
}

export default async function OneThreadPage({ params, searchParams }: ThreadPageProps) {
  const { thread, viewer } = await getPage((await params).threadId)
  const query = querySchema.parse(await searchParams)
  const { ownerIds } = viewer
  const [story, uses, broken, listed] = await Promise.all([
    readThreadStory(thread.id, { ownerIds, page: query.story }),
    listThreadUses(thread.id, { ownerIds, page: query.designs }),
    listBrokenPromises({ threadId: thread.id }),
    readListed(ownerIds),
  ])
  const { line, batches } = thread
  const unit = viewer.settings.threadUnit
  const hasOwners = viewer.owners.length > 1
  const words = { strands: line.strands, unit, putUpWord: line.putUpWord }
  const justDone = movementsToTell(story.lines).filter(({ revision }) => String(revision) === query.did)
  const hrefFor = (choice: Partial<Record<'story' | 'designs', number>>) => {
    const pages = { story: story.page, designs: uses.page, ...choice }
    const search = new URLSearchParams(
      Object.entries(pages).flatMap(([name, page]) => (page === 1 ? [] : [[name, String(page)]])),
    ).toString()
    return `/threads/${thread.id}${search && `?${search}`}#${Object.keys(choice)[0]}`
  }
  return (
    <>
      <PageHead
        crumbs={[
          { label: say('Threads'), href: '/threads' },
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
        byline={sayParts(
          '{lineTitle}{rest}, {rest2}, {strands, plural, one {not parted} other {# strands}}, one {putUpWord} is {putUpStrand}{hasLotsMatter, select, yes {. Its dye lots are kept apart} other {}}{isLeaving, select, yes {. No longer made, or soon not to be} other {}}.',
          {
            lineTitle: lineTitle(line),
            rest: line.fibre && `, ${givenName(line.fibre)}`,
            rest2: line.dyeing === 'overdyed' ? say('overdyed or hand-dyed') : dyedWords[line.dyeing],
            strands: line.strands,
            putUpWord: singular(line.putUpWord),
            putUpStrand: formatStrandBoth(line.putUpStrandTenths, line.strands, unit),
            hasLotsMatter: Boolean(line.lotsMatter),
            isLeaving: thread.isLeaving,
          },
        )}
        actions={
          <>
            <LinkButton kind="first" href={`/threads/${thread.id}/receive`}>
              {say('Take some in')}
            </LinkButton>
            <LinkButton href={`/threads/${thread.id}/swaps`}>{say('Swaps')}</LinkButton>
            <LinkButton href={`/threads/${thread.id}/reach`}>{say('How far it reaches')}</LinkButton>
            <LinkButton href={`/threads/${thread.id}/reorder`}>{say('When to buy')}</LinkButton>
            <LinkButton href={`/kits?threadId=${thread.id}`}>{say('Kits with it')}</LinkButton>
            <LinkButton href={`/threads/${thread.id}/edit`}>{say('Change')}</LinkButton>
          </>
        }
      >
        <WhereInShort batches={batches} />
        <StockSentence thread={thread} unit={unit} />
      </PageHead>
      {justDone.map((movement) => (
        <Notice key={movement.id} kind="done" title={`${describeMovement(movement, words)}.`}>
          {describeWayBack(movement.kind)}
        </Notice>
      ))}
      <BrokenPromises broken={broken} unit={unit} about="thread" />
      {thread.note && <p className={`${s.note} ${s.gap}`}>{thread.note}</p>}
      {line.dyeing === 'overdyed' && (
        <div className={s.gap}>
          <Notice kind="caution" title={say('Hand-dyed and overdyed thread can bleed.')}>
            {say(
              'Test the thread and the cloth wet on white before washing the piece; a pass is no guarantee. For anything old, fragile or valuable ask a conservator first.',
            )}
          </Notice>
        </div>
      )}
      <FreeSum thread={thread} unit={unit} />
      <JumpMarks
        items={[
          { href: '#stock', label: say('Stock'), note: batches.length > 0 ? String(batches.length) : undefined },
          ...(thread.projects.length > 0
            ? [{ href: '#projects' as const, label: say('Projects'), note: String(thread.projects.length) }]
            : []),
          { href: '#orders', label: say('Orders'), note: thread.orders.length > 0 ? String(thread.orders.length) : undefined },
          { href: '#designs', label: say('Designs'), note: String(uses.designCount) },
          { href: '#stand-ins', label: say('Stand-ins') },
          { href: '#story', label: say('Story') },
        ]}
      />
      <WhereItIs batches={batches} />
      <OwnersSection thread={thread} ownerIds={ownerIds} unit={unit} />
      <StockSection thread={thread} unit={unit} hasOwners={hasOwners} wentOut={story.wentOut} />
      <ProjectsSection thread={thread} unit={unit} />
      <FormerHomes thread={thread} story={story} />
      <OrderSection thread={thread} listed={listed.get(thread.id) ?? []} unit={unit} hasOwners={hasOwners} />
      <UsesSection uses={uses} strands={line.strands} unit={unit} hrefForPage={(designs) => hrefFor({ designs })} />
      <StandInsSection thread={thread} />
      <StorySection thread={thread} story={story} unit={unit} hrefForPage={(page) => hrefFor({ story: page })} />
      <BarcodesSection thread={thread} />
    </>
  )
}

/** The page's own answer: what is free, and why that is not all; of several owners each says it in the table of owners. */
function StockSentence({ thread, unit }: { thread: ThreadPage; unit: ThreadLengthUnit }) {
  const { line, minimumPutUps } = thread
  const own = thread.owners.filter(({ ownerId }) => thread.batches.some(({ batch }) => batch.ownerId === ownerId))
  const [only] = own
  const length = (strandTenths: number) => formatStrandBoth(strandTenths, line.strands, unit)
  if (own.length > 1)
    return <p>{say('Held by {own, plural, one {# owner} other {# owners}}, each told apart below.', { own: own.length })}</p>
  if (!only || only.stock.states.includes('none'))
    return (
      <p>
        <strong>{say('None held.')}</strong>
        {thread.owners.some(({ holdsAny }) => holdsAny) && say(' Others hold some: see below.')}
      </p>
    )
  const { stock } = only
  return (
    <>
      <p>
        <strong>
          {stock.freeStrandTenths > 0
            ? say('{length} free', { length: length(stock.freeStrandTenths) })
            : stock.isSomeHeld
              ? say('Some, length unknown')
              : say('None free')}
        </strong>
        {stock.freePutUps > 0 && say(', {counted} of it whole', { counted: counted(stock.freePutUps, line.putUpWord) })}
        {stock.freeStrandTenths > 0 && stock.isSomeHeld && say(', and some of unknown length')}.
      </p>
      <Facts
        items={[
          { label: say('Owned'), value: length(stock.ownedStrandTenths) },
          {
            label: say('Out'),
            word: <Word of="out">{say('Out')}</Word>,
            value: stock.outStrandTenths > 0 ? length(stock.outStrandTenths) : say('none'),
          },
          {
            label: say('Promised'),
            word: <Word of="promised">{say('Promised')}</Word>,
            value: stock.promisedStrandTenths > 0 ? length(stock.promisedStrandTenths) : say('none'),
          },
          ...(minimumPutUps === null
            ? []
            : [
                {
                  label: say('Keep'),
                  word: <Word of="minimum">{say('Keep')}</Word>,
                  value: counted(minimumPutUps, line.putUpWord),
                },
              ]),
        ]}
      />
      {stock.states.includes('low') && (
        <p className={`${s.do} ${s.gap}`}>
          {sayParts('Low: {counted} free, {minimumPutUps} to keep.', {
            counted: counted(stock.freePutUps, line.putUpWord),
            minimumPutUps,
          })}
        </p>
      )}
    </>
  )
}

/** What is free, written out; of several owners each has theirs in the table of owners. */
function FreeSum({ thread, unit }: { thread: ThreadPage; unit: ThreadLengthUnit }) {
  const { line } = thread
  const own = thread.owners.filter(({ ownerId }) => thread.batches.some(({ batch }) => batch.ownerId === ownerId))
  const stock = own.length === 1 ? own[0]?.stock : undefined
  if (!stock || stock.ownedStrandTenths === 0) return null
  const length = (strandTenths: number) => formatStrandBoth(strandTenths, line.strands, unit)
  return (
    <Unfold label={say('How what is free comes about')}>
      <Sum
        title={say('Free of {makerName} {code}', { makerName: line.makerName, code: thread.code })}
        rows={[
          {
            label: say('owned'),
            how: say('all batches, parts by what is known of them'),
            figure: length(stock.ownedStrandTenths),
          },
          { label: say('out'), how: say('not in its home'), figure: `− ${length(stock.outStrandTenths)}` },
          {
            label: say('promised'),
            how: say('to projects, of what is at home'),
            figure: `− ${length(stock.promisedStrandTenths)}`,
          },
          { label: say('free'), figure: length(stock.freeStrandTenths), kind: 'end' },
        ]}
        note={
          stock.isSomeHeld ? say('A part of which only “some” is known is not counted.') : say('Each skein is taken off once.')
        }
      />
    </Unfold>
  )
}
