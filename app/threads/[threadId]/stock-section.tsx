import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThreadStory } from '#lib/db/movement/thread-story'
import type { HeldBatch, OwnerStock, ThreadPage } from '#lib/db/thread/find-thread'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { isOut } from '#lib/stock/batch'
import { DrawerFront } from '#trade/drawer-front'
import { PlaceLabel } from '#trade/place-label'
import { WordsUsed } from '#trade/word'
import { ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { UnfoldButton } from '#ui/unfold'
import { counted, plural, threadLength } from '#words/amounts'
import { dayOf } from '#words/date'
import { heldWords, partWords } from '#words/stock'
import { threadTitle } from '#words/thread'
import { returnAction } from '../batch-actions'
import s from '../threads.module.css'
import t from './thread.module.css'

/** Each place that holds some, drawn. */
export function WhereItIs({ batches }: { batches: readonly HeldBatch[] }) {
  const fronts = placesOf(batches)
  if (fronts.size === 0) return null
  return (
    <Section title={say('Where it is')}>
      <ul className={s.fronts}>
        {[...fronts.values()].map(({ place, isAway, home }) => (
          <li key={place.id}>
            <DrawerFront label={place.label} kind={place.kind} href={`/places/${place.id}`} isAway={isAway} />
            <span className={s.path}>
              {[...place.above.map(({ label }) => label), place.label].join(' › ')}
              {isAway && home && sayParts(', out of {home}', { home })}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}

/** Where each of the batches that hold anything is now, by place. */
function placesOf(batches: readonly HeldBatch[]) {
  const holding = batches.filter(({ batch }) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
  return new Map(
    holding.flatMap(({ batch, current, home }) => {
      const place = current ?? home
      return place ? [[place.id, { place, isAway: isOut(batch), home: home?.label }] as const] : []
    }),
  )
}

const labelsInHead = 4

/** The same in one line for the head of the page, where a hand at the drawers looks first. */
export function WhereInShort({ batches }: { batches: readonly HeldBatch[] }) {
  const places = [...placesOf(batches).values()]
  if (places.length === 0) return null
  const rest = places.length - labelsInHead
  return (
    <p className={s.short}>
      {say('In')}{' '}
      {places.slice(0, labelsInHead).map(({ place, isAway, home }) => (
        <PlaceLabel
          key={place.id}
          label={place.label}
          href={`/places/${place.id}`}
          isAway={isAway}
          livesIn={isAway ? home : undefined}
          isLarge
        />
      ))}
      {rest > 0 && <span className="quiet"> {sayParts('and {rest} more', { rest })}</span>}
    </p>
  )
}

type OwnersProps = { thread: ThreadPage; ownerIds: readonly string[]; unit: ThreadLengthUnit }

/** What each owner holds, one line each: two owners' thread is never added up. Left out where one owner holds all there is. */
export function OwnersSection({ thread, ownerIds, unit }: OwnersProps) {
  const { owners, line } = thread
  const isPlain = owners.length < 2 && owners.every(({ ownerId }) => ownerIds.includes(ownerId))
  if (isPlain) return null
  const length = (strandTenths: number) => (strandTenths > 0 ? threadLength(strandTenths, line.strands, unit) : say('none'))
  const columns: Column<OwnerStock>[] = [
    {
      key: 'owner',
      head: say('Owner'),
      cell: ({ ownerId, ownerName }) => (
        <>
          {ownerName}
          {!ownerIds.includes(ownerId) && <span className={s.under}>{say('its batches are not shown here')}</span>}
        </>
      ),
      phone: 'lead',
    },
    {
      key: 'free',
      head: say('Free'),
      cell: ({ stock }) => (
        <>
          {length(stock.freeStrandTenths)}
          {stock.isSomeHeld && say(' + some')}
          {stock.freePutUps > 0 && (
            <span className={s.under}>{say('{counted} whole', { counted: counted(stock.freePutUps, line.putUpWord) })}</span>
          )}
        </>
      ),
      isNumeric: true,
      phone: 'side',
    },
    {
      key: 'owned',
      head: say('Owned'),
      cell: ({ stock }) =>
        stock.ownedStrandTenths > 0 ? length(stock.ownedStrandTenths) : stock.isSomeOwned ? say('some') : say('none'),
      isNumeric: true,
      phone: 'labelled',
    },
    { key: 'out', head: say('Out'), cell: ({ stock }) => length(stock.outStrandTenths), isNumeric: true, phone: 'labelled' },
    {
      key: 'promised',
      head: say('Promised'),
      cell: ({ stock }) => length(stock.promisedStrandTenths),
      isNumeric: true,
      phone: 'labelled',
    },
  ]
  return (
    <Section title={say('Whose it is')} note={say('Each owner’s apart.')}>
      <Ledger
        caption={say('Who holds {threadTitle}', { threadTitle: threadTitle(thread) })}
        columns={columns}
        rows={owners}
        rowKey={({ ownerId }) => ownerId}
        isTight
      />
    </Section>
  )
}

type StockProps = {
  thread: ThreadPage
  unit: ThreadLengthUnit
  hasOwners: boolean
  wentOut: ThreadStory['wentOut']
}

/** Every batch: lot, put-ups, part and how it is known, to whom it is promised, where it lives and is, and since when and why. */
export function StockSection({ thread, unit, hasOwners, wentOut }: StockProps) {
  const { line, batches } = thread
  const columns: Column<HeldBatch>[] = [
    {
      key: 'lot',
      head: say('Lot'),
      cell: ({ batch, ownerName }) => (
        <>
          {batch.lot ? sayParts('Lot {lot}', { lot: <b>{batch.lot}</b> }) : say('No lot mark')}
          {hasOwners && <span className={s.under}>{ownerName}</span>}
        </>
      ),
      phone: 'lead',
    },
    {
      key: 'whole',
      head: say('Whole {plural}', { plural: plural(line.putUpWord) }),
      cell: ({ batch }) => (
        <>
          {batch.wholePutUps > 0 ? counted(batch.wholePutUps, batch.putUpWord ?? line.putUpWord) : say('none')}
          {batch.putUpStrandTenths !== line.putUpStrandTenths && (
            <span className={s.under}>
              {say('of {threadLength}', { threadLength: threadLength(batch.putUpStrandTenths, line.strands, unit) })}
            </span>
          )}
        </>
      ),
      phone: 'labelled',
    },
    {
      key: 'part',
      head: say('Part'),
      cell: ({ batch }) => partWords(batch, line.strands, unit) || say('none'),
      phone: 'labelled',
    },
    {
      key: 'promised',
      head: say('Promised to'),
      cell: ({ promises }) =>
        promises.length === 0
          ? say('nobody')
          : promises.map(({ id, projectId, title, strandTenths }) => (
              <span key={id} className={t.line}>
                <Link href={`/projects/${projectId}`} className="title">
                  {title}
                </Link>{' '}
                <span className="nb">{threadLength(strandTenths, line.strands, unit)}</span>
              </span>
            )),
      phone: 'labelled',
    },
    {
      key: 'place',
      head: say('Place'),
      cell: (held) => <BatchPlace held={held} went={wentOut.get(held.batch.id)} />,
      isAtEnd: true,
      phone: 'side',
    },
    {
      key: 'do',
      head: say('Do'),
      headIsHidden: true,
      cell: ({ batch }) => (
        <UnfoldButton
          label={say('What to do with {held}{rest}', {
            held: heldWords(batch, line, unit),
            rest: batch.lot ? say(' of lot {lot}', { lot: batch.lot }) : '',
          })}
        >
          {say('Do')}
        </UnfoldButton>
      ),
      isAtEnd: true,
      phone: 'wide',
      isOffPaper: true,
    },
  ]
  return (
    <Section
      title={say('Stock')}
      id="stock"
      note={batches.length > 1 ? say('Batch by batch, in the order they came in.') : undefined}
    >
      {batches.length === 0 ? (
        <Empty>{say('None of it is on record here. Take some in, and it stands here with its lot and its place.')}</Empty>
      ) : (
        <>
          <WordsUsed of={['batch', 'lot', 'part-skein', 'home']} />
          <Ledger
            caption={say('Stock of {threadTitle}', { threadTitle: threadTitle(thread) })}
            columns={columns}
            rows={batches}
            rowKey={({ batch }) => batch.id}
            under={(held) => <BatchActions thread={thread} held={held} hasOwners={hasOwners} />}
          />
        </>
      )}
    </Section>
  )
}

type BatchPlaceProps = {
  held: HeldBatch
  went: { project: { id: string; title: string } | null; reason: string | null } | undefined
}

function BatchPlace({ held, went }: BatchPlaceProps) {
  const { batch, home, current, outSince } = held
  const place = current ?? home
  if (!place) return <span className="faint">{say('no place yet')}</span>
  if (!isOut(batch) || !home) return <PlaceLabel label={place.label} href={`/places/${place.id}`} />
  return (
    <PlaceLabel
      label={place.label}
      href={`/places/${place.id}`}
      livesIn={home.label}
      note={
        <>
          {outSince && say('out since {outSince}', { outSince: dayOf(outSince) })}
          {went?.project &&
            sayParts(' for {title}', {
              title: (
                <Link href={`/projects/${went.project.id}`} className="title">
                  {went.project.title}
                </Link>
              ),
            })}
          {went?.reason && `: ${went.reason}`}
        </>
      }
    />
  )
}

/** What can be done with one batch. A button acts, a link asks first. */
function BatchActions({ thread, held, hasOwners }: { thread: ThreadPage; held: HeldBatch; hasOwners: boolean }) {
  const { batch, home, version } = held
  const to = (verb: string) => `/threads/${thread.id}/batches/${batch.id}/${verb}`
  const isEmpty = batch.wholePutUps === 0 && batch.partCertainty === 'none'
  const hasOther = thread.batches.some((other) => other.batch.id !== batch.id && other.batch.ownerId === batch.ownerId)
  return (
    <div className={s.actions}>
      {isOut(batch) && !isEmpty && (
        <Form
          label={say('Put back into {label}', { label: home?.label })}
          action={returnAction}
          submit={say('Put back into {label}', { label: home?.label })}
          hidden={{ batchId: batch.id, version: String(version) }}
        />
      )}
      <ButtonRow>
        {!isEmpty && (
          <>
            <LinkButton href={to('use')}>{say('Use some')}</LinkButton>
            <LinkButton href={to('take')}>{say('Take to another place')}</LinkButton>
            <LinkButton href={to('split')}>{say('Part it in two')}</LinkButton>
            {hasOther && <LinkButton href={to('merge')}>{say('Lay it with another')}</LinkButton>}
          </>
        )}
        <LinkButton href={to('move')}>{say('Move')}</LinkButton>
        <LinkButton href={to('correct')}>{say('Correct the figure')}</LinkButton>
        <LinkButton href={to('relabel')}>{say('Correct the label')}</LinkButton>
        <LinkButton href={`/labels?one=batch.${batch.id}`}>{say('Print its label')}</LinkButton>
        {!isEmpty && <LinkButton href={`/missing/new?noun=thread&id=${batch.id}`}>{say('It is not there')}</LinkButton>}
        {hasOwners && !isEmpty && <LinkButton href={to('pass-on')}>{say('Pass to another owner')}</LinkButton>}
      </ButtonRow>
    </div>
  )
}
