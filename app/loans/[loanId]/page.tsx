import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { calendarDay } from '#words/date'
import { lentHref, lentName, lentNote, loanKindWords, standingWords } from '#words/loan'
import { closeAction, extendAction, takeBackAction } from '../actions'
import s from '../loans.module.css'

type PageProps = { params: Promise<{ loanId: string }> }

const titleOf = ({ kind, place }: LoanRow): string => `${loanKindWords[kind]} ${place.label}`

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const loan = await findLoan((await params).loanId, calendarDay(new Date()))
  return { title: loan ? titleOf(loan) : say('Out and back') }
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
  const asks = kind === 'borrow' ? say('What to give back') : say('What to ask back')
  return (
    <>
      <PageHead
        title={titleOf(loan)}
        crumbs={[{ label: say('Out and back'), href: '/loans' }, { label: titleOf(loan) }]}
        byline={loan.reason}
      >
        <LoanStandingWord standing={standing} word={standingWords(standing)} note={isOpen && dueOn && formatDate(dueOn)} />
      </PageHead>
      <PrintLine>
        {titleOf(loan)}, {formatDate(today)}
      </PrintLine>
      <Facts items={factsOf(loan, settings.currency)} />
      <Section
        title={isOpen ? asks : say('What it was')}
        note={
          isOpen && notBack.length < lines.length
            ? say('{notBack} of {lines, plural, one {# thing} other {# things}} to come', {
                notBack: notBack.length,
                lines: lines.length,
              })
            : undefined
        }
      >
        <Lines lines={lines} isOpen={isOpen} />
      </Section>
      {isOpen && (
        <Section title={kind === 'borrow' ? say('Give back') : say('Take back')} id="back">
          <div className={s.stack}>
            <Form
              action={takeBackAction}
              hidden={hidden}
              submit={kind === 'borrow' ? say('It is given back') : say('It is back')}
              label={kind === 'borrow' ? say('Give back') : say('Take back')}
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
                <DateField name="on" label={say('On the day')} defaultValue={today} min={loan.fromOn} isRequired />
                {notBack.some(({ thing }) => thing.noun === 'project') && (
                  <TextField
                    name="placeLabel"
                    label={say('Where the work is now')}
                    hint={say('Left blank: where its kit was before')}
                    suggestions={places
                      .filter(({ kind: of }) => !isPeople(of))
                      .slice(0, 300)
                      .map(({ label }) => label)}
                    maxLength={100}
                    width="half"
                  />
                )}
                <TextField
                  name="note"
                  label={say('Note')}
                  hint={say('A bent corner, one skein used up')}
                  maxLength={300}
                  width="half"
                />
              </FieldRow>
            </Form>
            <p className={s.aside}>
              {kind === 'borrow'
                ? say('Things of another owner here go back where they live, on the record.')
                : say(
                    'Each goes back where it lives, on the record; what came out of the bag of a kit in work goes back into that bag.',
                  )}
            </p>
            <Unfold label={say('Agree on another day')}>
              <Form
                action={extendAction}
                hidden={hidden}
                submit={say('Change the day')}
                submitKind="plain"
                label={say('Agree on another day')}
              >
                <DateField
                  name="dueOn"
                  label={say('Due')}
                  defaultValue={dueOn ?? ''}
                  min={loan.fromOn}
                  isRequired={kind === 'lend'}
                />
                {kind !== 'borrow' && lines.some(({ thing }) => thing.noun === 'chart') && (
                  <CheckField
                    name="acceptsClash"
                    label={say('All the same')}
                    hint={say('Tick it when somebody means to stitch from it meanwhile')}
                  />
                )}
              </Form>
            </Unfold>
            <ButtonRow>
              <ConfirmDialog
                opener={say('Settle it otherwise')}
                title={say('Settle it though not all is back?')}
                confirm={say('Settle it')}
                action={closeAction}
                hidden={hidden}
              >
                <p>
                  {sayParts(
                    'For what was lost, given or paid for. What is not back stays on record with {label}; of a chart held in several copies, those that went are no longer counted.',
                    { label: loan.place.label },
                  )}
                </p>
                <DateField name="on" label={say('On the day')} defaultValue={today} min={loan.fromOn} isRequired />
                <TextField name="note" label={say('How it was settled')} maxLength={300} isRequired />
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
    caption={say('What went')}
    rows={lines}
    rowKey={({ id }) => id}
    isTight
    columns={[
      {
        key: 'what',
        head: say('What'),
        cell: ({ thing }) => {
          const href = lentHref(thing)
          return href ? <Link href={href}>{lentName(thing)}</Link> : lentName(thing)
        },
        phone: 'lead',
      },
      { key: 'many', head: say('How much'), cell: lentNote },
      {
        key: 'back',
        head: say('Back'),
        cell: ({ backOn, backNote, isElsewhere }) => {
          const said = backOn
            ? say('back {backOn}', { backOn: formatDate(backOn) })
            : isElsewhere
              ? say('no longer with them')
              : isOpen
                ? say('to come')
                : say('not back')
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
    {
      label: kind === 'borrow' ? say('From') : say('With'),
      value: <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway />,
    },
    { label: say('Since'), value: formatDate(fromOn) },
    { label: say('Due'), value: dueOn && formatDate(dueOn) },
    { label: say('Settled'), value: closedOn && formatDate(closedOn) },
    { label: kind === 'borrow' ? say('Who borrowed it') : say('Whose'), value: owner.name },
    {
      label: say('Work'),
      value: project && (
        <Link href={`/projects/${project.id}`} className="title">
          {project.title}
        </Link>
      ),
    },
    { label: say('Price agreed'), value: priceMinor === null ? null : `${currency}${formatPrice(priceMinor, null)}` },
    { label: say('Written down by'), value: who },
    { label: say('Note'), value: note },
  ].filter(({ value }) => value !== null && value !== '')
}
