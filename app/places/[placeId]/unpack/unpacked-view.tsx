import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { UnpackedLine, UnpackedList } from '#lib/db/unpack/unpacked'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { ThreadName } from '#trade/thread-bar'
import { LinkButton } from '#ui/button'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted, listed } from '#words/amounts'
import { hexesOf } from '#words/colour'
import { amountWords } from '#words/stock'
import { threadName } from '#words/thread'
import { ThingName } from '../../../_things/thing-name'
import s from './unpack.module.css'

/** What came of an unpacked bag: the list in walking order, what was used up, what is missing, and the check. */
export function UnpackedView({ list, settings }: { list: UnpackedList; settings: Settings }) {
  const { walk, back, usedUp, missing, check } = list
  const waiting = back.filter(({ isHome }) => !isHome).length
  return (
    <>
      <p className={s.check}>
        {sayParts(
          'Check: {back} back + {usedUp} used up + {missing} missing = {pulled} of thread out of the bag, a part counting as one.',
          { back: check.back, usedUp: check.usedUp, missing: check.missing, pulled: <b>{check.pulled}</b> },
        )}
      </p>
      <Section
        title={say('Put back')}
        note={back.length > 0 && say('In walking order.')}
        actions={
          walk && (
            <LinkButton kind={waiting > 0 ? 'first' : 'plain'} href={`/walks/${walk.id}`}>
              {waiting > 0 ? say('Tick the list') : say('The list')}
            </LinkButton>
          )
        }
      >
        {back.length === 0 ? (
          <p>{say('Nothing was left to put back.')}</p>
        ) : (
          <>
            <p className={s.note}>
              {waiting > 0
                ? say('The record has it in the bag until it is ticked home, so that record and goods move at one moment.')
                : say('All of it is home.')}
            </p>
            <Ledger
              caption={say('What goes back, and where, in walking order')}
              rows={back}
              rowKey={({ lineId }) => lineId}
              columns={[
                { key: 'place', head: say('Back to'), cell: (line) => <BackTo line={line} />, phone: 'line' },
                { key: 'what', head: say('What'), cell: (line) => <What line={line} settings={settings} />, phone: 'lead' },
                {
                  key: 'how-much',
                  head: say('How much'),
                  cell: ({ what }) => what.noun === 'thread' && <b>{leftoverWords(what, settings)}</b>,
                  phone: 'side',
                },
                {
                  key: 'state',
                  head: say('State'),
                  cell: ({ isHome }) => (isHome ? say('✓ home') : <span className="do">{say('to put back')}</span>),
                  isAtEnd: true,
                  phone: 'labelled',
                },
              ]}
            />
          </>
        )}
      </Section>
      {usedUp.length > 0 && (
        <Section title={say('Used up')} actions={<Link href="/buy">{say('Reorder check')}</Link>}>
          <p>
            {say('{usedUp}. Look whether to buy {usedUp2, plural, one {it} other {them}} again.', {
              usedUp: listed(
                usedUp.map(({ thread, lot, putUps }) =>
                  say('{threadName}{rest} ({counted})', {
                    threadName: threadName(thread),
                    rest: lot === null ? '' : say(', lot {lot}', { lot }),
                    counted: counted(putUps, thread.putUpWord),
                  }),
                ),
              ),
              usedUp2: usedUp.length,
            })}
          </p>
        </Section>
      )}
      {missing.length > 0 && (
        <Section
          title={say('Missing')}
          note={counted(missing.length, 'question')}
          actions={<Link href="/missing">{say('All that is missing')}</Link>}
        >
          <ul>
            {missing.map((one) => (
              <li key={one.missingId}>
                <Link href={`/missing/${one.missingId}`}>
                  {one.noun === 'thread'
                    ? `${threadName(one.thread)}${one.lot === null ? '' : say(', lot {lot}', { lot: one.lot })}`
                    : one.name}
                </Link>
                {one.status === 'open' ? <span className="do">{say(': out, last seen here')}</span> : `: ${one.status}`}
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}

type ThreadLine = Extract<UnpackedLine['what'], { noun: 'thread' }>

function leftoverWords(what: ThreadLine, settings: Settings): string {
  const words = amountWords(what, what.thread, settings.threadUnit)
  if (!what.hasPart) return words
  return what.partStrandTenths > 0
    ? `${what.wholePutUps > 0 ? '' : say('part of ')}${words}`
    : listed([words, say('a part')].filter(Boolean))
}

function BackTo({ line: { place, isFull, overflow } }: { line: UnpackedLine }) {
  if (!place) return say('no place')
  return (
    <PlaceLabel
      label={place.label}
      href={`/places/${place.id}`}
      note={
        (isFull || overflow.length > 0) && (
          <>
            {isFull && say('full; ')}
            {overflow.length > 0 ? (
              <>
                {say('more of it lives in')}{' '}
                {overflow.slice(0, 3).map(({ id, label }, turn) => (
                  <span key={id}>
                    {turn > 0 && ', '}
                    <Link href={`/places/${id}`}>{label}</Link>
                  </span>
                ))}
              </>
            ) : (
              say('no overflow is on record')
            )}
          </>
        )
      }
    />
  )
}

function What({ line: { what }, settings }: { line: UnpackedLine; settings: Settings }) {
  if (what.noun === 'thing')
    return <ThingName thing={what.thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />
  const { thread, lot, ownerName } = what
  return (
    <ThreadName
      maker={thread.makerName}
      code={thread.code}
      name={thread.name ?? undefined}
      hexes={hexesOf(thread.lab)}
      href={`/threads/${thread.id}`}
      note={[lot !== null && say('lot {lot}', { lot }), ownerName].filter(Boolean).join(', ')}
    />
  )
}
