import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { findLoan, type LoanLineNamed, type LoanRow } from '#lib/db/loan/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { isPeople } from '#lib/place/place'
import { formatPrice } from '#lib/quantity/money'
import { LoanStandingWord } from '#trade/loan-standing'
import { PlaceLabel } from '#trade/place-label'
import { ButtonRow } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { CheckField, DateField, FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { calendarDay } from '#words/date'
import { lentHref, lentName, lentNote, loanKindWords, standingWords } from '#words/loan'
import { closeAction, extendAction, takeBackAction } from '../actions'
import s from '../loans.module.css'

type PageProps = { params: Promise<{ loanId: string }> }

const titleOf = ({ kind, place }: LoanRow): string => `${loanKindWords[kind]} ${place.label}`

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const loan = await findLoan((await params).loanId, calendarDay(new Date()))
  return { title: loan ? titleOf(loan) : 'Out and back' }
}

export default async function LoanPage({ params }: PageProps) {
  const today = calendarDay(new Date())
  const [loan, { settings }, places] = await Promise.all([
    findLoan((await params).loanId, today),
    getViewer(),
    listPlaceOptions(),
  ])
  if (!loan) notFound()
  const { standing, dueOn, lines, kind } = loan
  const notBack = lines.filter(({ backOn }) => backOn === null)
  const hidden = { loanId: loan.id, version: String(loan.version) }
  const isOpen = standing.kind !== 'closed'
  const asks = kind === 'borrow' ? 'What to give back' : 'What to ask back'
  return (
    <>
      <PageHead
        title={titleOf(loan)}
        crumbs={[{ label: 'Out and back', href: '/loans' }, { label: titleOf(loan) }]}
        byline={loan.reason}
      >
        <LoanStandingWord standing={standing} word={standingWords(standing)} note={isOpen && dueOn && formatDate(dueOn)} />
      </PageHead>
      <PrintLine>
        {titleOf(loan)}, {formatDate(today)}
      </PrintLine>
      <Facts items={factsOf(loan, settings.currency)} />
      <Section
        title={isOpen ? asks : 'What it was'}
        note={
          isOpen && notBack.length < lines.length ? `${notBack.length} of ${counted(lines.length, 'thing')} to come` : undefined
        }
      >
        <Lines lines={lines} isOpen={isOpen} />
      </Section>
      {isOpen && (
        <Section title={kind === 'borrow' ? 'Give back' : 'Take back'} id="back">
          <div className={s.stack}>
            <Form
              action={takeBackAction}
              hidden={hidden}
              submit={kind === 'borrow' ? 'It is given back' : 'It is back'}
              label={kind === 'borrow' ? 'Give back' : 'Take back'}
            >
              {notBack.map(({ id, thing, count }) => (
                <CheckField
                  key={id}
                  name={`line:${id}`}
                  label={lentName(thing)}
                  hint={lentNote({ thing, count })}
                  defaultChecked
                />
              ))}
              <FieldRow>
                <DateField name="on" label="On" defaultValue={today} min={loan.fromOn} isRequired />
                {notBack.some(({ thing }) => thing.noun === 'project') && (
                  <TextField
                    name="placeLabel"
                    label="Where the work is now"
                    hint="Left blank: where its kit was before"
                    suggestions={places
                      .filter(({ kind: of }) => !isPeople(of))
                      .slice(0, 300)
                      .map(({ label }) => label)}
                    maxLength={100}
                    width="half"
                  />
                )}
                <TextField name="note" label="Note" hint="A bent corner, one skein used up" maxLength={300} width="half" />
              </FieldRow>
            </Form>
            <p className={s.aside}>
              {kind === 'borrow'
                ? 'Things of another owner here go back where they live, on the record.'
                : 'Each goes back where it lives, on the record; what came out of the bag of a kit in work goes back into that bag.'}
            </p>
            <Unfold label="Agree on another day">
              <Form action={extendAction} hidden={hidden} submit="Change the day" submitKind="plain" label="Agree on another day">
                <DateField name="dueOn" label="Due" defaultValue={dueOn ?? ''} min={loan.fromOn} isRequired={kind === 'lend'} />
                {kind !== 'borrow' && lines.some(({ thing }) => thing.noun === 'chart') && (
                  <CheckField
                    name="acceptsClash"
                    label="All the same"
                    hint="Tick it when somebody means to stitch from it meanwhile"
                  />
                )}
              </Form>
            </Unfold>
            <ButtonRow>
              <ConfirmDialog
                opener="Settle it otherwise"
                title="Settle it though not all is back?"
                confirm="Settle it"
                action={closeAction}
                hidden={hidden}
              >
                <p>
                  For what was lost, given or paid for. What is not back stays on record with {loan.place.label}; of a chart held
                  in several copies, those that went are no longer counted.
                </p>
                <DateField name="on" label="On" defaultValue={today} min={loan.fromOn} isRequired />
                <TextField name="note" label="How it was settled" maxLength={300} isRequired />
              </ConfirmDialog>
            </ButtonRow>
          </div>
        </Section>
      )}
    </>
  )
}

const Lines = ({ lines, isOpen }: { lines: readonly LoanLineNamed[]; isOpen: boolean }) => (
  <Ledger
    caption="What went"
    rows={lines}
    rowKey={({ id }) => id}
    isTight
    columns={[
      {
        key: 'what',
        head: 'What',
        cell: ({ thing }) => {
          const href = lentHref(thing)
          return href ? <Link href={href}>{lentName(thing)}</Link> : lentName(thing)
        },
        phone: 'lead',
      },
      { key: 'many', head: 'How much', cell: lentNote },
      {
        key: 'back',
        head: 'Back',
        cell: ({ backOn, backNote, isElsewhere }) => {
          const said = backOn
            ? `back ${formatDate(backOn)}`
            : isElsewhere
              ? 'no longer with them'
              : isOpen
                ? 'to come'
                : 'not back'
          return [said, backNote].filter(Boolean).join(', ')
        },
        phone: 'side',
      },
    ]}
  />
)

function factsOf(loan: LoanRow, currency: string) {
  const { place, owner, fromOn, dueOn, closedOn, priceMinor, project, note, who, kind } = loan
  return [
    { label: kind === 'borrow' ? 'From' : 'With', value: <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway /> },
    { label: 'Since', value: formatDate(fromOn) },
    { label: 'Due', value: dueOn && formatDate(dueOn) },
    { label: 'Settled', value: closedOn && formatDate(closedOn) },
    { label: kind === 'borrow' ? 'Who borrowed it' : 'Whose', value: owner.name },
    {
      label: 'Work',
      value: project && (
        <Link href={`/projects/${project.id}`} className="title">
          {project.title}
        </Link>
      ),
    },
    { label: 'Price agreed', value: priceMinor === null ? null : `${currency}${formatPrice(priceMinor, null)}` },
    { label: 'Written down by', value: who },
    { label: 'Note', value: note },
  ].filter(({ value }) => value !== null && value !== '')
}
