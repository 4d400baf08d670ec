import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { askLending, type LendingAnswer } from '#lib/db/loan/queries'
import { readThingsToLend } from '#lib/db/loan/read-things'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { clashWords, describeLoanRefusal, fileWords } from '#words/loan'
import { lendAction } from '../actions'
import { FindThings } from '../find-things'
import s from '../loans.module.css'
import { thingsQuerySchema } from '../schema'
import { TermsFields } from '../terms-fields'
import { ThingsFields } from '../things-fields'

export const metadata: Metadata = { title: 'Lend' }

export default async function LendPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const query = thingsQuerySchema.parse(await searchParams)
  const today = calendarDay(new Date())
  const [{ owners, ownerIds }, things, answers, places] = await Promise.all([
    getViewer(),
    readThingsToLend({ charts: query.chart, batches: query.batch, cloth: query.cloth, notions: query.notion }),
    Promise.all(query.chart.map((chartId) => askLending({ chartId, count: 1, fromOn: today, untilOn: null }, today))),
    listPlaceOptions(),
  ])
  const asked = answers.filter((answer) => answer !== null)
  const inTheWay = asked.filter(({ because }) => because !== null)
  const lendable = things.filter(({ thing }) => !inTheWay.some(({ chart }) => chart.id === thing.id))
  const clashes = asked.flatMap((answer) => answer.clashes)
  const ownerId = lendable[0]?.owner.id ?? ownerIds[0]
  return (
    <>
      <PageHead
        title="Lend"
        crumbs={[{ label: 'Out and back', href: '/loans' }, { label: 'Lend' }]}
        byline="To a friend, the guild table, another shop: with its reason, and a day to be back by."
      />
      {owners.length === 0 || !ownerId ? (
        <Empty title="Whose is it?" actions={<LinkButton href="/settings">Settings</LinkButton>}>
          There is no owner yet. Add one in the settings first: your own stash, or the shop.
        </Empty>
      ) : (
        <>
          <div className={s.notes}>
            {inTheWay.map((answer) => (
              <NotLent key={answer.chart.id} answer={answer} />
            ))}
            {clashes.length > 0 && (
              <Notice kind="caution" title="Somebody means to stitch from it">
                <ul>
                  {clashes.map((clash) => (
                    <li key={clash.projectId}>
                      <Link href={`/projects/${clash.projectId}`}>{clash.title}</Link>:{' '}
                      {clash.plannedOn
                        ? `${clash.ownerName} means to begin on ${formatDate(clash.plannedOn)}`
                        : clashWords(clash)}
                    </li>
                  ))}
                </ul>
              </Notice>
            )}
          </div>
          {things.length > 0 && lendable.length === 0 ? null : (
            <Form
              action={lendAction}
              submit="Lend it"
              hidden={{ ownerId }}
              actions={<LinkButton href="/loans">Leave it</LinkButton>}
            >
              {lendable.length > 0 && <ThingsFields things={lendable} />}
              <TermsFields places={places} today={today} who="To whom" isDueNeeded reasonHint="To stitch from, to show a class" />
              <TextArea name="others" label="What else goes along" hint="One a line: what this larder does not hold" rows={2} />
              <TextArea name="note" label="Note" rows={2} />
              {lendable.some(({ thing }) => thing.noun === 'chart') && (
                <CheckField
                  name="acceptsClash"
                  label="All the same"
                  hint="Tick it when it is to go although somebody means to stitch from it meanwhile"
                />
              )}
            </Form>
          )}
          <FindThings
            page="/loans/lend"
            query={query}
            ownerIds={[ownerId]}
            title={lendable.length > 0 ? 'Add another thing' : 'What goes'}
          />
          <p className={s.aside}>
            One bought chart is for one stitcher. Lending the bought paper is usual; passing on a copy is not, and files are not
            lent. What the law allows varies from country to country.
          </p>
        </>
      )}
    </>
  )
}

/** Why a chart cannot go, and for a file what could go in its stead. */
function NotLent({ answer }: { answer: LendingAnswer }) {
  const { chart, because, outAt, onPaper, loans, atHome } = answer
  const name = chart.title
  if (because === 'is-a-file')
    return (
      <Notice kind="refusal" title={`${name} cannot be lent`}>
        <p>{fileWords}</p>
        {onPaper.length > 0 && (
          <ul>
            {onPaper.map(({ id, title, ownerName, placeLabel }) => (
              <li key={id}>
                <Link href={`/loans/lend?chart=${id}`}>The paper copy of {title}</Link>, {ownerName}
                {placeLabel && `, in ${placeLabel}`}
              </li>
            ))}
          </ul>
        )}
      </Notice>
    )
  const loan = loans[0]
  return (
    <Notice
      kind="refusal"
      title={
        because === 'is-out'
          ? describeLoanRefusal({ kind: 'is-out', name, placeLabel: outAt ?? '' })
          : because === 'no-home'
            ? describeLoanRefusal({ kind: 'no-home', name })
            : describeLoanRefusal({ kind: 'not-so-many', name, atHome })
      }
      actions={<LinkButton href={`/charts/${chart.id}`}>The chart</LinkButton>}
    >
      {loan && (
        <p>
          <Link href={`/loans/${loan.id}`}>With {loan.place.label}</Link> since {formatDate(loan.fromOn)}
          {loan.dueOn && `, due ${formatDate(loan.dueOn)}`}.
        </p>
      )}
    </Notice>
  )
}
