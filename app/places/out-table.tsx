import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { ThingHere } from '#lib/db/place/contents'
import type { OutThing } from '#lib/db/place/list-out'
import type { Settings } from '#lib/settings/settings'
import { LoanStandingWord } from '#trade/loan-standing'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { dayOf } from '#words/date'
import { standingWords } from '#words/loan'
import { ThingName, thingWords } from '../_things/thing-name'
import { putBackAction } from './actions'
import s from './out-table.module.css'
import { describeDays } from './words'

type OutTableProps = { things: readonly OutThing[]; caption: string; now: Date; settings: Settings }

/** What is not where it lives: its gap, where it is and since when, and a button that puts it back. */
export function OutTable({ things, caption, now, settings }: OutTableProps) {
  const columns: Column<OutThing>[] = [
    {
      key: 'gap',
      head: say('Lives in'),
      cell: ({ home }) => home && <PlaceLabel label={home.label} href={`/places/${home.id}`} />,
      phone: 'labelled',
    },
    {
      key: 'thing',
      head: say('What'),
      cell: (thing) => <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />,
      phone: 'lead',
    },
    {
      key: 'where',
      head: say('Where it is'),
      cell: (thing) =>
        thing.current && (
          <PlaceLabel
            label={thing.current.label}
            href={`/places/${thing.current.id}`}
            isAway
            note={thing.projects.map(({ id, title }) => (
              <Link key={id} href={`/projects/${id}`} className="title">
                {title}
              </Link>
            ))}
          />
        ),
      phone: 'labelled',
    },
    {
      key: 'since',
      head: say('Since'),
      cell: ({ outSince }) =>
        outSince && (
          <span className="nb">
            {dayOf(outSince)}
            <br />
            <small className="quiet">{describeDays(outSince, now)}</small>
          </span>
        ),
      phone: 'side',
    },
    ...(things.some(({ loan }) => loan !== null) ? [dueColumn()] : []),
    {
      key: 'back',
      head: say('Put back'),
      headIsHidden: true,
      cell: (thing) =>
        thing.loan ? (
          <LinkButton href={`/loans/${thing.loan.loanId}#back`}>{say('Take back')}</LinkButton>
        ) : (
          <PutBack thing={thing} />
        ),
      isAtEnd: true,
      phone: 'wide',
      isOffPaper: true,
    },
  ]
  return <Ledger caption={caption} columns={columns} rows={things} rowKey={({ noun, id }) => `${noun} ${id}`} />
}

/** Till when what is lent or sent away is with them. */
const dueColumn = (): Column<OutThing> => ({
  key: 'due',
  head: say('Due'),
  cell: ({ loan }) =>
    loan && (
      <LoanStandingWord
        standing={loan.standing}
        word={standingWords(loan.standing)}
        note={loan.dueOn ? formatDate(loan.dueOn) : undefined}
      />
    ),
  phone: 'line',
})

/** One press and it is back where it lives. */
export function PutBack({ thing }: { thing: ThingHere }) {
  return (
    <div className={s.back}>
      <Form
        action={putBackAction}
        hidden={{ noun: thing.noun, id: thing.id, version: String(thing.version) }}
        submit={sayParts('Put back{thing}', { thing: <span className="vh"> {thingWords(thing)}</span> })}
        submitKind="plain"
        isInline
      />
    </div>
  )
}
