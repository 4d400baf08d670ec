import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { hexToLab } from '#lib/colour/convert'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listClothColours } from '#lib/db/swap/list-cloth-colours'
import { listThreadSwaps, type ThreadSwap } from '#lib/db/swap/list-thread-swaps'
import { findThreadNamed, listThreadsCalled, type ThreadNamed } from '#lib/db/thread/find-thread'
import { ClothLay } from '#trade/cloth-lay'
import { ThreadName } from '#trade/thread-bar'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed, threadLength } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { hexesOf } from '#words/colour'
import { describeFinding, differenceWords, isWorthALine } from '#words/swaps'
import { lineTitle, threadTitle } from '#words/thread'
import { threadSwapsSchema } from './schema'
import s from './swaps.module.css'

type Props = { params: Promise<{ threadId: string }>; searchParams: Promise<Record<string, unknown>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const thread = await findThreadNamed((await params).threadId)
  return { title: thread ? say('What could stand in for {threadTitle}', { threadTitle: threadTitle(thread) }) : say('Not found') }
}

export default async function ThreadSwapsPage({ params, searchParams }: Props) {
  const { threadId } = await params
  const { apart, cloth: clothText, among } = threadSwapsSchema.parse(await searchParams)
  const [viewer, thread] = await Promise.all([getViewer(), findThreadNamed(threadId)])
  if (!thread) notFound()
  const { ownerIds, settings } = viewer
  const [pieces, read] = await Promise.all([listClothColours(ownerIds), readThreadNames(apart)])
  const piece = pieces.find(({ pieceId }) => pieceId === clothText) ?? null
  const cloth = piece?.lab ?? hexToLab(clothText)
  const answers = await getAnswers()
  const found = await listThreadSwaps(answers, threadId, {
    ownerIds,
    apartThreadIds: read.threads.map(({ id }) => id),
    cloth,
    among,
  })
  if (!found) notFound()
  const { world } = answers
  const nameOf = (id: string) => {
    const known = world.threads.get(id)
    const line = world.lines.get(world.lineOfThread.get(id) ?? '')
    return known && line ? [line.makerName, known.code].join(' ') : say('a thread that was removed')
  }
  const passing = found.swaps.filter(({ verdict }) => verdict.isAccepted)
  const failing = found.swaps.filter(({ verdict }) => !verdict.isAccepted)
  const row = (swap: ThreadSwap) => (
    <SwapRow
      key={swap.thread.threadId}
      swap={swap}
      found={found}
      cloth={cloth}
      name={world.threads.get(swap.thread.threadId)?.name ?? null}
      code={world.threads.get(swap.thread.threadId)?.code ?? '?'}
      makerName={world.lines.get(world.lineOfThread.get(swap.thread.threadId) ?? '')?.makerName ?? ''}
      nameOf={nameOf}
      unit={settings.threadUnit}
    />
  )
  return (
    <>
      <PageHead
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: lineTitle(thread.line), href: `/threads?line=${thread.line.id}` },
          { label: thread.code, href: `/threads/${thread.id}` },
          { label: say('Swaps') },
        ]}
        title={say('What could stand in for {makerName} {code}?', { makerName: thread.line.makerName, code: thread.code })}
        byline={
          read.threads.length > 0
            ? say('Without looking like {threads}', {
                threads: listed(read.threads.map((one) => `${one.line.makerName} ${one.code}`)),
              })
            : say('Whatever stands beside it')
        }
        actions={<LinkButton href={`/threads/${thread.id}`}>{say('Back to the thread')}</LinkButton>}
      >
        <p>
          <b>
            {passing.length === 0
              ? say('Nothing that keeps every rule.')
              : say(
                  '{passing, plural, one {# thread} other {# threads}} {passing, plural, one {keeps} other {keep}} every rule.',
                  { passing: passing.length },
                )}
          </b>{' '}
          {passing[0] &&
            say('The nearest is {nameOf}, {difference}.', {
              nameOf: nameOf(passing[0].thread.threadId),
              difference: differenceWords(passing[0].verdict),
            })}
        </p>
      </PageHead>
      <PrintLine>{sayParts('In place of {threadTitle}', { threadTitle: threadTitle(thread) })}</PrintLine>
      <FormStrip
        action={`/threads/${thread.id}/swaps`}
        label={say('What to look for')}
        summary={among === 'free' ? say('From what is free') : say('From every thread on record')}
        second={
          <StripText
            name="apart"
            label={say('Keep apart from')}
            value={apart}
            placeholder={say('Larkholm 1205, Larkholm 1206')}
          />
        }
        clear={
          apart || clothText || among === 'all' ? { href: `/threads/${thread.id}/swaps`, label: say('Start again') } : undefined
        }
      >
        <StripSelect
          name="among"
          label={say('From')}
          value={among}
          options={[
            { value: 'free', label: say('what is free') },
            { value: 'all', label: say('every thread on record') },
          ]}
        />
        <StripSelect
          name="cloth"
          label={say('On this cloth')}
          value={clothText}
          any={say('not chosen')}
          options={[
            ...(clothText && !piece ? [{ value: clothText, label: clothText }] : []),
            ...pieces.map((colour) => ({ value: colour.pieceId, label: pieceTitle(colour) })),
          ]}
        />
      </FormStrip>
      {read.unknown.length > 0 && (
        <Notice kind="caution" title={say('Not known, or not one thread alone: {unknown}', { unknown: listed(read.unknown) })}>
          {say('Give maker and exact code, with commas between several.')}
        </Notice>
      )}
      {thread.lab === null && (
        <Notice kind="caution" title={say('Its colour is not on record.')}>
          {say('Only stand-ins that somebody named can be shown. Enter its colour on its own page first.')}
        </Notice>
      )}
      <Notice kind="caution" title={say('Daylight decides.')}>
        {say(
          'Colours on record and on a screen are rough, and two threads can match in one lamp and not in another.{clothCase, select, yes { Choose a cloth whose colour is on record, and each is judged by whether it shows on it.} other {}}',
          { clothCase: cloth === null },
        )}
      </Notice>
      {found.swaps.length === 0 ? (
        <Empty title={say('Nothing near it')}>
          {among === 'free'
            ? say('Nothing free is within 5 of it. Look among every thread on record to see what could be bought.')
            : say('No thread on record is within 5 of it.')}
        </Empty>
      ) : (
        <>
          {passing.length > 0 && (
            <Section title={say('These keep every rule')} note={say('The nearest first.')}>
              <ul className={s.swaps}>{passing.map(row)}</ul>
            </Section>
          )}
          {failing.length > 0 && (
            <Section title={say('Near it, but not these')} note={say('With what speaks against each.')}>
              <ul className={s.swaps}>{failing.map(row)}</ul>
            </Section>
          )}
        </>
      )}
    </>
  )
}

type SwapRowProps = {
  swap: ThreadSwap
  found: NonNullable<Awaited<ReturnType<typeof listThreadSwaps>>>
  cloth: Parameters<typeof ClothLay>[0]['cloth']
  makerName: string
  code: string
  name: string | null
  nameOf: (threadId: string) => string
  unit: 'm' | 'yd'
}

function SwapRow({ swap, found, cloth, makerName, code, name, nameOf, unit }: SwapRowProps) {
  const { thread, stock, verdict, opinions, isAcceptedStandIn } = swap
  const { strands, dyeing } = thread.line
  const shown = verdict.findings
    .filter((finding) => isWorthALine(finding, cloth !== null))
    .filter(({ weight, rule }) => weight !== 'passes' || rule === 'apart' || rule === 'contrast')
  const laid = ({ lab, line }: typeof found.original) => ({ lab, dyeing: line.dyeing })
  return (
    <li>
      <div>
        <ClothLay
          cloth={cloth}
          original={laid(found.original)}
          swap={{ lab: thread.lab, dyeing }}
          neighbours={found.apart.map(laid)}
          label={say('{nameOf} above, {nameOf2} below it', {
            nameOf: nameOf(found.original.threadId),
            nameOf2: nameOf(thread.threadId),
          })}
        />
      </div>
      <div>
        <p className={s.name}>
          <ThreadName
            maker={makerName}
            code={code}
            name={name}
            hexes={hexesOf(thread.lab)}
            dye={dyeing === 'solid' ? 'solid' : 'overdyed'}
            href={`/threads/${thread.threadId}`}
          />
          <b>{differenceWords(verdict)}</b>
          <span className="quiet">
            {stock.freeStrandTenths > 0
              ? say('{threadLength} free', { threadLength: threadLength(stock.freeStrandTenths, strands, unit) })
              : stock.isSomeHeld
                ? say('some free, length unknown')
                : say('none free')}
          </span>
        </p>
        <ul className={s.findings}>
          {isAcceptedStandIn && <li>{say('Accepted as a stand-in already')}</li>}
          {opinions.map(({ sourceName }) => (
            <li key={sourceName}>{sayParts('{sourceName} says so: an opinion, not accepted', { sourceName })}</li>
          ))}
          {shown.map((finding) => (
            <li
              key={`${finding.kind} ${'chartedThreadId' in finding ? finding.chartedThreadId : ''}`}
              data-weight={finding.weight}
            >
              {describeFinding(finding, { nameOf, strands, unit })}
            </li>
          ))}
        </ul>
      </div>
    </li>
  )
}

/** Threads named in a text with commas between; what names none, or several, is handed back as written. */
async function readThreadNames(text: string): Promise<{ threads: ThreadNamed[]; unknown: string[] }> {
  const names = text
    .split(/[,;\n]/)
    .map((name) => name.trim())
    .filter((name) => name !== '')
    .slice(0, 20)
  const called = await Promise.all(names.map(listThreadsCalled))
  return {
    threads: called.flatMap((some) => (some.length === 1 ? some : [])),
    unknown: names.filter((_, at) => called[at]?.length !== 1),
  }
}
