import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findCount } from '#lib/db/count/queries'
import { type ComparedLine, type OutOfCount, readComparison } from '#lib/db/count/read-comparison'
import type { AskedThread } from '#lib/db/missing/list-asked'
import type { Accuracy } from '#lib/stock/stocktake'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { rememberedName } from '#viewer/remembered-name'
import { counted, listed } from '#words/amounts'
import { nearnessWords, shareWords } from '#words/count'
import { dayOf } from '#words/date'
import { decideAction, dropCountAction, signCountAction } from '../../actions'
import { lineName, statusWords } from '../../words'
import s from '../count.module.css'
import { DecideLine } from './decide-line'

type PageProps = { params: Promise<{ countId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const count = await findCount((await params).countId)
  return { title: count ? say('Count of {title}, compared', { title: count.title }) : say('Count') }
}

/** As many lines as a sum names one by one. */
const mostNamed = 12

/** Something about it is not as the record has it, or not known. */
const wantsLook = (line: ComparedLine): boolean =>
  line.counted === null || line.counted !== line.expected || line.hasMoved || line.outcome !== null

export default async function DifferencesPage({ params }: PageProps) {
  const count = await findCount((await params).countId)
  if (!count) notFound()
  // Nobody who still counts sees what is expected.
  if (count.status === 'open') redirect(`/count/${count.id}`)
  const [compared, name] = await Promise.all([readComparison(count), rememberedName()])
  const { accuracy, lines, suspects, out, asked } = compared
  const askedOf = new Map(asked.map((one) => [one.batchId, one]))
  const turnedUp = lines.flatMap((line) => {
    const threadId = line.thread?.id ?? compared.elsewhere.find(({ lineId }) => lineId === line.id)?.threadId
    const more = line.counted === null ? 0 : line.counted - line.expected
    return more > 0 ? asked.filter((one) => one.threadId === threadId).map((one) => ({ line, more, one })) : []
  })
  const byId = new Map(lines.map((line) => [line.id, line]))
  const looked = lines.filter(wantsLook)
  const right = lines.filter((line) => !wantsLook(line))
  const canDecide = count.status === 'counted'
  const undecided = lines.filter((line) => line.isUndecided).length
  const isRecounting = lines.some((line) => line.outcome === 'recount' && line.counted === null)
  const counters = [...new Set(lines.flatMap(({ countedBy }) => countedBy ?? []))]
  return (
    <>
      <PageHead
        title={say('Count of {title}, compared', { title: count.title })}
        crumbs={[{ label: say('Count'), href: '/count' }, { label: count.title }]}
        byline={[
          say('Begun {startedAt}; {status}', { startedAt: dayOf(count.startedAt), status: statusWords[count.status] }),
          count.signedBy && say(' by {signedBy}', { signedBy: count.signedBy }),
          count.closedAt && say(' on {closedAt}', { closedAt: dayOf(count.closedAt) }),
          counters.length > 0 && say('. Counted by {names}', { names: listed(counters) }),
          '.',
        ]
          .filter(Boolean)
          .join('')}
        actions={
          canDecide &&
          isRecounting && (
            <LinkButton kind="first" href={`/count/${count.id}`}>
              {say('Count again')}
            </LinkButton>
          )
        }
      />
      <PrintLine>{sayParts('Count of {title}, compared with the record', { title: count.title })}</PrintLine>
      <Facts
        items={[
          {
            label: say('Lines right'),
            value: say('{linesRight} of {linesCounted}, {share}', {
              linesRight: accuracy.linesRight,
              linesCounted: accuracy.linesCounted,
              share: shareWords(accuracy.linesRight, accuracy.linesCounted),
            }),
          },
          {
            label: say('Over and under together'),
            value: say('{grossError} of {expected}, {share}', {
              grossError: accuracy.grossError,
              expected: accuracy.expected,
              share: shareWords(accuracy.grossError, accuracy.expected),
            }),
          },
          { label: say('On the shelf by the record'), value: String(accuracy.expected) },
          { label: say('Counted'), value: String(accuracy.counted) },
        ]}
      />
      <p className={`quiet ${s.how}`}>
        {sayParts(
          'Expected on the shelf is what is owned less what is out. Over is never set off against under: a net of nought can hide both.{rest}',
          {
            rest:
              accuracy.lines > accuracy.linesCounted &&
              say(' Not counted, and left out: {lines, plural, one {# line} other {# lines}}.', {
                lines: accuracy.lines - accuracy.linesCounted,
              }),
          },
        )}
      </p>
      <Unfold label={say('How this is reckoned')}>
        <AccuracySums accuracy={accuracy} lines={lines} />
      </Unfold>
      {suspects.length > 0 && (
        <Section title={say('Look before adjusting')} note={say('One is under by as much as the other is over.')}>
          {suspects.map(({ underId, overId, putUps, nearness }) => {
            const [under, over] = [byId.get(underId), byId.get(overId)]
            return (
              under &&
              over && (
                <p key={`${underId} ${overId}`} className={s.pair}>
                  {sayParts(
                    '{lineName} in {label} is {putUps} under, {lineName2} in {label2} is {putUps} over, {nearness}: {putUps, plural, one {one may be} other {# may be}} in the wrong compartment.',
                    {
                      lineName: <b>{lineName(under)}</b>,
                      label: under.place.label,
                      putUps,
                      lineName2: <b>{lineName(over)}</b>,
                      label2: over.place.label,
                      nearness: nearnessWords[nearness],
                    },
                  )}
                </p>
              )
            )
          })}
        </Section>
      )}
      {turnedUp.length > 0 && (
        <Section
          title={say('It may have turned up')}
          note={say('More was counted than the record has, and one is being looked for.')}
        >
          {turnedUp.map(({ line, more, one }) => (
            <p key={`${line.id} ${one.missingId}`} className={s.pair}>
              {sayParts(
                '{lineName} in {label} is {more} over; <link>the record says that {max} is missing</link>{rest}. Say there that it is found before you correct the figure.',
                {
                  lineName: <b>{lineName(line)}</b>,
                  label: line.place.label,
                  more,
                  link: (words) => <Link href={`/missing/${one.missingId}`}>{words}</Link>,
                  max: Math.max(1, one.wholePutUps),
                  rest: one.lastSeen && say(', last seen in {label}', { label: one.lastSeen.label }),
                },
              )}
            </p>
          ))}
        </Section>
      )}
      <Section title={say('Not as the record has it')} note={looked.length > 0 && counted(looked.length, 'line')}>
        {looked.length === 0 ? (
          <p>{say('Everything counted is as the record has it.')}</p>
        ) : canDecide ? (
          <Form
            action={decideAction}
            hidden={{ countId: count.id }}
            submit={say('Carry out what is chosen')}
            submitKind={undecided > 0 ? 'first' : 'plain'}
            label={say('Decide line by line')}
          >
            <ul className={s.rows}>
              {looked.map((line) => (
                <DecideLine
                  key={line.id}
                  line={line}
                  elsewhere={compared.elsewhere.find(({ lineId }) => lineId === line.id)}
                  canDecide
                />
              ))}
            </ul>
            <TextField name="note" label={say('Note')} width="half" hint={say('Kept with every line decided now')} />
            <TextField name="by" label={say('Who decides')} defaultValue={name} autoComplete="name" width="half" isRequired />
          </Form>
        ) : (
          <ul className={s.rows}>
            {looked.map((line) => (
              <DecideLine
                key={line.id}
                line={line}
                elsewhere={compared.elsewhere.find(({ lineId }) => lineId === line.id)}
                canDecide={false}
              />
            ))}
          </ul>
        )}
      </Section>
      {out.length > 0 && (
        <Section
          title={say('Lives here, and is out')}
          note={say('Not looked for on the shelf: open questions, not errors of the count.')}
        >
          <ul>
            {out.map((thing) => (
              <li key={thing.batchId}>
                {sayParts('{threadName}: {wholePutUps} of {label}, {outWhere}{rest}.', {
                  threadName: thing.threadName,
                  wholePutUps: thing.wholePutUps > 0 ? thing.wholePutUps : say('a part one'),
                  label: thing.home.label,
                  outWhere: <OutWhere thing={thing} asked={askedOf.get(thing.batchId)} />,
                  rest: thing.outSince && say(' since {outSince}', { outSince: dayOf(thing.outSince) }),
                })}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {right.length > 0 && (
        <Section title={say('Right')} note={counted(right.length, 'line')}>
          <details>
            <summary>{say('Show them')}</summary>
            <ul>
              {right.map((line) => (
                <li key={line.id}>
                  {sayParts('{lineName} in {label}: {counted}.', {
                    lineName: lineName(line),
                    label: line.place.label,
                    counted: line.counted,
                  })}
                </li>
              ))}
            </ul>
          </details>
        </Section>
      )}
      {canDecide && (
        <div className={s.screen}>
          <Section title={say('Sign it off')} note={say('By another person than who counted.')}>
            {undecided > 0 ? (
              <Notice
                kind="caution"
                title={say('{undecided, plural, one {# line} other {# lines}} to decide first.', { undecided })}
              />
            ) : (
              <Form
                action={signCountAction}
                hidden={{ countId: count.id }}
                submit={say('Sign it off')}
                label={say('Sign it off')}
              >
                <TextField name="by" label={say('Who signs')} autoComplete="off" width="half" isRequired />
              </Form>
            )}
            <div className={s.ends}>
              <ConfirmDialog
                opener={say('Give the count up')}
                openerKind="quiet"
                title={say('Give this count up?')}
                confirm={say('Give it up')}
                action={dropCountAction}
                hidden={{ countId: count.id }}
              >
                <p>{say('What was corrected stays corrected. It cannot be taken up again.')}</p>
              </ConfirmDialog>
            </div>
          </Section>
        </div>
      )}
    </>
  )
}

/** Out somewhere, or being looked for. */
const OutWhere = ({ thing, asked }: { thing: OutOfCount; asked: AskedThread | undefined }) =>
  asked ? (
    <Link href={`/missing/${asked.missingId}`}>
      {sayParts('missing{rest}', { rest: asked.lastSeen && say(', last seen in {label}', { label: asked.lastSeen.label }) })}
    </Link>
  ) : (
    sayParts('last seen in {label}', { label: <Link href={`/places/${thing.current.id}`}>{thing.current.label}</Link> })
  )

function AccuracySums({ accuracy, lines }: { accuracy: Accuracy; lines: readonly ComparedLine[] }) {
  const counted = lines.flatMap((line) => (line.counted === null ? [] : [{ line, difference: line.counted - line.expected }]))
  const wrong = counted.filter(({ difference }) => difference !== 0)
  const named = wrong.slice(0, wrong.length > mostNamed + 1 ? mostNamed : wrong.length)
  const others = wrong.slice(named.length)
  const { linesCounted, linesRight, expected, grossError } = accuracy
  return (
    <Sums>
      <Sum
        title={say('Lines right')}
        rows={[
          { label: say('Lines on the sheet'), figure: numberText(accuracy.lines) },
          ...(accuracy.lines > linesCounted
            ? [{ label: say('Not counted'), figure: `− ${numberText(accuracy.lines - linesCounted)}` }]
            : []),
          { label: say('Lines counted'), figure: numberText(linesCounted), kind: 'rule' },
          { label: say('Counted otherwise than the record says'), figure: `− ${numberText(linesCounted - linesRight)}` },
          { label: say('Right'), figure: numberText(linesRight), kind: 'rule' },
          {
            label: say('Share'),
            how: linesCounted > 0 && `${numberText(linesRight)} ÷ ${numberText(linesCounted)}`,
            figure: shareWords(linesRight, linesCounted),
            kind: 'end',
          },
        ]}
      />
      <Sum
        title={say('Over and under together')}
        rows={[
          ...named.map(({ line, difference }) => ({
            label: lineName(line),
            how: difference > 0 ? say('over') : say('under'),
            figure: numberText(Math.abs(difference)),
          })),
          ...(others.length > 0
            ? [
                {
                  label: say('{others, number} more lines', { others: others.length }),
                  figure: numberText(others.reduce((sum, { difference }) => sum + Math.abs(difference), 0)),
                },
              ]
            : []),
          { label: say('Together'), figure: numberText(grossError), kind: 'rule' },
          {
            label: say('Share'),
            how: expected > 0 && say('÷ {expected, number} by the record', { expected }),
            figure: shareWords(grossError, expected),
            kind: 'end',
          },
        ]}
        note={say('Shares are rounded to a tenth of a per cent.')}
      />
    </Sums>
  )
}
