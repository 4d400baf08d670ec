import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { coverThread, type ThreadCover } from '#lib/coverage/line-status'
import type { ThreadNeed } from '#lib/coverage/need'
import { findThread, type HeldBatch, type ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { freeOfBatch, freeStock } from '#lib/stock/free-stock'
import type { Stitch } from '#lib/thread/stitches'
import type { ThreadLine } from '#lib/thread/thread'
import { stitchesFrom, threadUse } from '#lib/thread/thread-use'
import { PlaceLabel } from '#trade/place-label'
import { Button } from '#ui/button'
import { Empty } from '#ui/empty'
import { ChoiceField, FieldRow, NumberField, TextField } from '#ui/field'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted, singular, threadLength } from '#words/amounts'
import { heldWords } from '#words/stock'
import { threadTitle } from '#words/thread'
import { stitchWords, threadUseRows } from '#words/thread-use'
import s from './reach.module.css'
import { commonStitches, otherStitches, type ReachChoices, readReach } from './reach-choices'

export const generateMetadata = (): Metadata => ({ title: say('How far it goes') })

type Props = { params: Promise<{ threadId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

/** One batch that something is free of: all of it, and the part by itself. */
type AtHand = { held: HeldBatch; freeStrandTenths: number; partStrandTenths: number; isSome: boolean }

export default async function ReachPage({ params, searchParams }: Props) {
  const { threadId } = await params
  const { settings, ownerIds } = await getViewer()
  const thread = await findThread(threadId, { ownerIds })
  if (!thread) notFound()
  const { line } = thread
  const unit = settings.threadUnit
  const choices = readReach(await searchParams, {
    strands: Math.min(2, line.strands),
    working: line.working,
    allowance: settings.allowance,
  })
  const atHand = thread.batches.map(atHandOf).filter(({ freeStrandTenths, isSome }) => freeStrandTenths > 0 || isSome)
  const page = `/threads/${thread.id}`
  const isAsked = Object.keys(choices.tally).length > 0
  return (
    <>
      <PageHead
        title={say('How far {threadTitle} goes', { threadTitle: threadTitle(thread) })}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: threadTitle(thread), href: page },
          { label: say('How far it goes') },
        ]}
        byline={say('Say what is to be worked, and it is held against what is free of this thread.')}
      />
      <ReachForm threadId={thread.id} choices={choices} />
      {isAsked && <Answer thread={thread} choices={choices} atHand={atHand} ownerIds={ownerIds} unit={unit} />}
      <HowFar line={line} choices={choices} atHand={atHand} unit={unit} />
    </>
  )
}

function atHandOf(held: HeldBatch): AtHand {
  const { batch, promises } = held
  const { freeStrandTenths } = freeOfBatch(batch, promises, null)
  const isSome = batch.partCertainty === 'some'
  return { held, freeStrandTenths, partStrandTenths: isSome ? 0 : Math.min(batch.partStrandTenths, freeStrandTenths), isSome }
}

function ReachForm({ threadId, choices: { texts, errors } }: { threadId: string; choices: ReachChoices }) {
  const field = (name: string) => ({ name, defaultValue: texts[name], ...(errors[name] && { error: errors[name] }) })
  const isOtherGiven = otherStitches.some((stitch) => texts[stitch] || errors[stitch])
  return (
    <form className={s.form} action={`/threads/${threadId}/reach`} aria-label={say('What is to be worked')}>
      <FieldRow>
        {commonStitches.map((stitch) => (
          <NumberField key={stitch} {...field(stitch)} label={stitchWords[stitch]} isWhole />
        ))}
      </FieldRow>
      <Unfold label={say('Other stitches')} isOpenAtFirst={isOtherGiven}>
        <div className={s.others}>
          {otherStitches.map((stitch) => (
            <NumberField key={stitch} {...field(stitch)} label={stitchWords[stitch]} isWhole />
          ))}
        </div>
      </Unfold>
      <FieldRow>
        <TextField {...field('cloth')} label={say('Cloth')} hint={say('28 over 2, 14, or 34 x 31 over 2')} width="half" />
        <NumberField {...field('strands')} label={say('Strands')} hint={say('In the needle')} isWhole />
        <NumberField {...field('allowance')} label={say('Allowance')} hint={say('For slack, starts and ends')} />
      </FieldRow>
      <ChoiceField
        name="working"
        label={say('Crosses worked')}
        defaultValue={texts.working ?? 'rows'}
        options={[
          { value: 'rows', label: say('in rows') },
          {
            value: 'crosses',
            label: say('each finished before the next'),
            note: say('Usual for overdyed and variegated thread.'),
          },
        ]}
      />
      <div>
        <Button kind="first" type="submit">
          {say('Reckon it')}
        </Button>
      </div>
    </form>
  )
}

type AnswerProps = {
  thread: ThreadPage
  choices: ReachChoices
  atHand: readonly AtHand[]
  ownerIds: readonly string[]
  unit: ThreadLengthUnit
}

/** What the stitches take, whether a part is enough or all that is free, and the arithmetic. */
function Answer({ thread, choices: { how, tally }, atHand, ownerIds, unit }: AnswerProps) {
  const { line } = thread
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const use = threadUse({ tally, ...how })
  const free = freeStock({
    threadId: thread.id,
    batches: thread.batches.map(({ batch }) => batch),
    promises: thread.batches.flatMap(({ promises }) => promises),
    ownerIds,
  })
  const { strandTenths } = use
  const need: ThreadNeed = { threadId: thread.id, strandTenths, leastStrandTenths: strandTenths, certainty: 'measured', from: [] }
  const cover = coverThread({ need, free, line, standInThreadId: null })
  // The smallest that is enough, so that the longer ones stay whole.
  const part = atHand
    .filter(({ partStrandTenths }) => partStrandTenths >= strandTenths)
    .sort((a, b) => a.partStrandTenths - b.partStrandTenths || (a.held.batch.id < b.held.batch.id ? -1 : 1))[0]
  return (
    <Section title={say('What it takes')} id="answer">
      <p className={s.verdict}>
        {sayParts(
          '{verdict} It takes {length}{rest}.{partCase, select, yes { The length of the part is a guess: measure it first.} other {}}',
          {
            verdict: <strong>{verdict(part, cover, line)}</strong>,
            length: length(strandTenths),
            rest: part ? say(', and {length} of the part is left', { length: length(part.partStrandTenths - strandTenths) }) : '',
            partCase: Boolean(part && part.held.batch.partCertainty === 'guess'),
          },
        )}
      </p>
      {atHand.length > 0 && (
        <Ledger
          caption={say('What is free of it')}
          rows={atHand}
          rowKey={({ held }) => held.batch.id}
          columns={atHandColumns(strandTenths, line, unit)}
        />
      )}
      <div className={s.sums}>
        <Sums>
          <Sum
            title={say('How much this needs')}
            rows={[
              ...threadUseRows(use, how),
              {
                label: say('One strand'),
                how: say('in millimetres, rounded up'),
                figure: say('{ceil, number} mm', { ceil: Math.ceil(strandTenths / 10) }),
                kind: 'rule',
              },
              {
                label:
                  line.strands === 1
                    ? say('Of the thread')
                    : say('Of {strands, plural, one {# strand} other {# strands}}', { strands: line.strands }),
                how: line.strands === 1 ? undefined : `÷ ${line.strands}`,
                figure: length(strandTenths),
                kind: 'end',
              },
            ]}
            note={
              tally.bead
                ? say('{bead, plural, one {# bead} other {# beads}} to be counted out as well.', { bead: tally.bead })
                : say('Nothing is written down and nothing promised.')
            }
          />
        </Sums>
      </div>
    </Section>
  )
}

function verdict(part: AtHand | undefined, cover: ThreadCover, line: ThreadLine): string {
  if (part) return say('A part {putUpWord} is enough.', { putUpWord: singular(line.putUpWord) })
  switch (cover.status) {
    case 'enough':
      return say('No part {putUpWord} is enough by itself, but what is free is.', { putUpWord: singular(line.putUpWord) })
    case 'mixed':
      return say('What is free is enough, but of more than one lot: compare them by daylight.')
    case 'lots':
      return say('There is enough in all, but in no single lot, and for this line lots matter.')
    case 'elsewhere':
      return say('Not enough is free: more of it is out or promised.')
    case 'unknown':
      return say('Not known: a part nobody has measured is held. Measure it.')
    case 'short':
    case 'swap':
      return say('Not enough: {counted} to buy.', { counted: counted(cover.shortPutUps, line.putUpWord) })
    case 'none':
      return say('None is free: {counted} to buy.', { counted: counted(cover.shortPutUps, line.putUpWord) })
  }
}

function atHandColumns(needStrandTenths: number, line: ThreadLine, unit: ThreadLengthUnit): Column<AtHand>[] {
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const against = (strandTenths: number) =>
    strandTenths >= needStrandTenths ? (
      <b>{sayParts('enough, {length} left', { length: length(strandTenths - needStrandTenths) })}</b>
    ) : (
      say('short by {length}', { length: length(needStrandTenths - strandTenths) })
    )
  return [
    {
      key: 'held',
      head: say('Held'),
      phone: 'lead',
      cell: ({ held: { batch } }) => `${heldWords(batch, line, unit)}${batch.lot ? say(', lot {lot}', { lot: batch.lot }) : ''}`,
    },
    {
      key: 'part',
      head: say('The part alone'),
      phone: 'labelled',
      cell: ({ partStrandTenths, isSome }) =>
        isSome ? say('length unknown') : partStrandTenths === 0 ? say('no part free') : against(partStrandTenths),
    },
    { key: 'all', head: say('All that is free'), phone: 'labelled', cell: ({ freeStrandTenths }) => against(freeStrandTenths) },
    {
      key: 'place',
      head: say('Place'),
      isAtEnd: true,
      phone: 'side',
      cell: ({ held: { current, home } }) => {
        const place = current ?? home
        return place ? <PlaceLabel label={place.label} href={`/places/${place.id}`} /> : say('no place yet')
      },
    },
  ]
}

type HowFarProps = { line: ThreadLine; choices: ReachChoices; atHand: readonly AtHand[]; unit: ThreadLengthUnit }

/** So many stitches of each kind, all of it in that one kind. */
function HowFar({ line, choices: { how, tally }, atHand, unit }: HowFarProps) {
  const length = (strandTenths: number) => threadLength(strandTenths, line.strands, unit)
  const longestPart = Math.max(0, ...atHand.map(({ partStrandTenths }) => partStrandTenths))
  const all = atHand.reduce((sum, { freeStrandTenths }) => sum + freeStrandTenths, 0)
  const columnOf = (key: string, head: string, strandTenths: number): Column<Stitch> => ({
    ...{ key, head: `${head}, ${length(strandTenths)}`, isNumeric: true, phone: 'labelled' },
    cell: (stitch) => numberText(stitchesFrom(strandTenths, { stitch, ...how })),
  })
  const columns: Column<Stitch>[] = [
    { key: 'stitch', head: say('Stitch'), phone: 'lead', cell: (stitch) => stitchWords[stitch] },
    columnOf('putUp', say('A full {putUpWord}', { putUpWord: singular(line.putUpWord) }), line.putUpStrandTenths),
    ...(longestPart > 0 ? [columnOf('part', say('The longest part'), longestPart)] : []),
    ...(all > 0 ? [columnOf('all', say('All that is free'), all)] : []),
  ]
  const inSight: Stitch[] = [...commonStitches, ...otherStitches.filter((stitch) => tally[stitch])]
  const folded = otherStitches.filter((stitch) => !tally[stitch])
  return (
    <Section
      title={say('How far it goes')}
      id="reach"
      note={say(
        'Worked in one stitch alone, with {strands, plural, one {# strand} other {# strands}} and an allowance of {allowance}.',
        { strands: how.strands, allowance: how.allowance },
      )}
    >
      {atHand.length === 0 && (
        <Empty title={say('None of it is free')}>
          {sayParts('What is held is out, promised, or not there. A full {putUpWord} would go this far:', {
            putUpWord: singular(line.putUpWord),
          })}
        </Empty>
      )}
      <Ledger caption={say('Stitches by kind')} rows={inSight} rowKey={(stitch) => stitch} isTight columns={columns} />
      <Unfold label={say('In other stitches')}>
        <Ledger caption={say('Other stitches by kind')} rows={folded} rowKey={(stitch) => stitch} isTight columns={columns} />
      </Unfold>
    </Section>
  )
}
