import type { Metadata } from 'next'
import { notFound, redirect } from 'next/navigation'
import { findCount } from '#lib/db/count/queries'
import { type ComparedLine, type OutOfCount, readComparison } from '#lib/db/count/read-comparison'
import type { AskedThread } from '#lib/db/missing/list-asked'
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
import { rememberedName } from '#viewer/remembered-name'
import { counted } from '#words/amounts'
import { nearnessWords, shareWords } from '#words/count'
import { dayOf } from '#words/date'
import { decideAction, dropCountAction, signCountAction } from '../../actions'
import { lineName, statusWords } from '../../words'
import s from '../count.module.css'
import { DecideLine } from './decide-line'

type PageProps = { params: Promise<{ countId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const count = await findCount((await params).countId)
  return { title: count ? `Count of ${count.title}, compared` : 'Count' }
}

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
        title={`Count of ${count.title}, compared`}
        crumbs={[{ label: 'Count', href: '/count' }, { label: count.title }]}
        byline={[
          `Begun ${dayOf(count.startedAt)}; ${statusWords[count.status]}`,
          count.signedBy && ` by ${count.signedBy}`,
          count.closedAt && ` on ${dayOf(count.closedAt)}`,
          counters.length > 0 && `. Counted by ${counters.join(', ')}`,
          '.',
        ]
          .filter(Boolean)
          .join('')}
        actions={
          canDecide &&
          isRecounting && (
            <LinkButton kind="first" href={`/count/${count.id}`}>
              Count again
            </LinkButton>
          )
        }
      />
      <PrintLine>Count of {count.title}, compared with the record</PrintLine>
      <Facts
        items={[
          {
            label: 'Lines right',
            value: `${accuracy.linesRight} of ${accuracy.linesCounted}, ${shareWords(accuracy.linesRight, accuracy.linesCounted)}`,
          },
          {
            label: 'Over and under together',
            value: `${accuracy.grossError} of ${accuracy.expected}, ${shareWords(accuracy.grossError, accuracy.expected)}`,
          },
          { label: 'On the shelf by the record', value: String(accuracy.expected) },
          { label: 'Counted', value: String(accuracy.counted) },
        ]}
      />
      <p className={`quiet ${s.how}`}>
        Expected on the shelf is what is owned less what is out. Over is never set off against under: a net of nought can hide
        both.
        {accuracy.lines > accuracy.linesCounted &&
          ` Not counted, and left out: ${counted(accuracy.lines - accuracy.linesCounted, 'line')}.`}
      </p>

      {suspects.length > 0 && (
        <Section title="Look before adjusting" note="One is under by as much as the other is over.">
          {suspects.map(({ underId, overId, putUps, nearness }) => {
            const [under, over] = [byId.get(underId), byId.get(overId)]
            return (
              under &&
              over && (
                <p key={`${underId} ${overId}`} className={s.pair}>
                  <b>{lineName(under)}</b> in {under.place.label} is {putUps} under, <b>{lineName(over)}</b> in{' '}
                  {`${over.place.label} is ${putUps} over`}, {nearnessWords[nearness]}:{' '}
                  {putUps === 1 ? 'one may be' : `${putUps} may be`} in the wrong compartment.
                </p>
              )
            )
          })}
        </Section>
      )}

      {turnedUp.length > 0 && (
        <Section title="It may have turned up" note="More was counted than the record has, and one is being looked for.">
          {turnedUp.map(({ line, more, one }) => (
            <p key={`${line.id} ${one.missingId}`} className={s.pair}>
              <b>{lineName(line)}</b> in {line.place.label} is {more} over;{' '}
              <Link href={`/missing/${one.missingId}`}>the record says that {Math.max(1, one.wholePutUps)} is missing</Link>
              {one.lastSeen && `, last seen in ${one.lastSeen.label}`}. Say there that it is found before you correct the figure.
            </p>
          ))}
        </Section>
      )}

      <Section title="Not as the record has it" note={looked.length > 0 && counted(looked.length, 'line')}>
        {looked.length === 0 ? (
          <p>Everything counted is as the record has it.</p>
        ) : canDecide ? (
          <Form
            action={decideAction}
            hidden={{ countId: count.id }}
            submit="Carry out what is chosen"
            submitKind={undecided > 0 ? 'first' : 'plain'}
            label="Decide line by line"
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
            <TextField name="note" label="Note" width="half" hint="Kept with every line decided now" />
            <TextField name="by" label="Who decides" defaultValue={name} autoComplete="name" width="half" isRequired />
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
        <Section title="Lives here, and is out" note="Not looked for on the shelf: open questions, not errors of the count.">
          <ul>
            {out.map((thing) => (
              <li key={thing.batchId}>
                {thing.threadName}: {thing.wholePutUps > 0 ? thing.wholePutUps : 'a part one'} of {thing.home.label},{' '}
                <OutWhere thing={thing} asked={askedOf.get(thing.batchId)} />
                {thing.outSince && ` since ${dayOf(thing.outSince)}`}.
              </li>
            ))}
          </ul>
        </Section>
      )}

      {right.length > 0 && (
        <Section title="Right" note={counted(right.length, 'line')}>
          <details>
            <summary>Show them</summary>
            <ul>
              {right.map((line) => (
                <li key={line.id}>
                  {lineName(line)} in {line.place.label}: {line.counted}.
                </li>
              ))}
            </ul>
          </details>
        </Section>
      )}

      {canDecide && (
        <div className={s.screen}>
          <Section title="Sign it off" note="By another person than who counted.">
            {undecided > 0 ? (
              <Notice kind="caution" title={`${counted(undecided, 'line')} to decide first.`} />
            ) : (
              <Form action={signCountAction} hidden={{ countId: count.id }} submit="Sign it off" label="Sign it off">
                <TextField name="by" label="Who signs" autoComplete="off" width="half" isRequired />
              </Form>
            )}
            <div className={s.ends}>
              <ConfirmDialog
                opener="Give the count up"
                openerKind="quiet"
                title="Give this count up?"
                confirm="Give it up"
                action={dropCountAction}
                hidden={{ countId: count.id }}
              >
                <p>What was corrected stays corrected. It cannot be taken up again.</p>
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
    <Link href={`/missing/${asked.missingId}`}>missing{asked.lastSeen && `, last seen in ${asked.lastSeen.label}`}</Link>
  ) : (
    <>
      last seen in <Link href={`/places/${thing.current.id}`}>{thing.current.label}</Link>
    </>
  )
