import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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

export const generateMetadata = (): Metadata => ({ title: say('Lend') })

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
        title={say('Lend')}
        crumbs={[{ label: say('Out and back'), href: '/loans' }, { label: say('Lend') }]}
        byline={say('To a friend, the guild table, another shop: with its reason, and a day to be back by.')}
      />
      {owners.length === 0 || !ownerId ? (
        <Empty title={say('Whose is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <>
          <div className={s.notes}>
            {inTheWay.map((answer) => (
              <NotLent key={answer.chart.id} answer={answer} />
            ))}
            {clashes.length > 0 && (
              <Notice kind="caution" title={say('Somebody means to stitch from it')}>
                <ul>
                  {clashes.map((clash) => (
                    <li key={clash.projectId}>
                      <Link href={`/projects/${clash.projectId}`}>{clash.title}</Link>:{' '}
                      {clash.plannedOn
                        ? say('{ownerName} means to begin on {plannedOn}', {
                            ownerName: clash.ownerName,
                            plannedOn: formatDate(clash.plannedOn),
                          })
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
              submit={say('Lend it')}
              hidden={{ ownerId }}
              actions={<LinkButton href="/loans">{say('Leave it')}</LinkButton>}
            >
              {lendable.length > 0 && <ThingsFields things={lendable} />}
              <TermsFields
                places={places}
                today={today}
                who={say('To whom')}
                isDueNeeded
                reasonHint={say('To stitch from, to show a class')}
              />
              <TextArea
                name="others"
                label={say('What else goes along')}
                hint={say('One a line: what this larder does not hold')}
                rows={2}
              />
              <TextArea name="note" label={say('Note')} rows={2} />
              {lendable.some(({ thing }) => thing.noun === 'chart') && (
                <CheckField
                  name="acceptsClash"
                  label={say('All the same')}
                  hint={say('Tick it when it is to go although somebody means to stitch from it meanwhile')}
                />
              )}
            </Form>
          )}
          <FindThings
            page="/loans/lend"
            query={query}
            ownerIds={[ownerId]}
            title={lendable.length > 0 ? say('Add another thing') : say('What goes')}
          />
          <p className={s.aside}>
            {say(
              'One bought chart is for one stitcher. Lending the bought paper is usual; passing on a copy is not, and files are not lent. What the law allows varies from country to country.',
            )}
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
      <Notice kind="refusal" title={say('{name} cannot be lent', { name })}>
        <p>{fileWords()}</p>
        {onPaper.length > 0 && (
          <ul>
            {onPaper.map(({ id, title, ownerName, placeLabel }) => (
              <li key={id}>
                {sayParts('<link>The paper copy of {title}</link>, {ownerName}{rest}', {
                  link: (words) => <Link href={`/loans/lend?chart=${id}`}>{words}</Link>,
                  title,
                  ownerName,
                  rest: placeLabel && say(', in {placeLabel}', { placeLabel }),
                })}
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
      actions={<LinkButton href={`/charts/${chart.id}`}>{say('The chart')}</LinkButton>}
    >
      {loan && (
        <p>
          {sayParts('<link>With {label}</link> since {fromOn}{rest}.', {
            link: (words) => <Link href={`/loans/${loan.id}`}>{words}</Link>,
            label: loan.place.label,
            fromOn: formatDate(loan.fromOn),
            rest: loan.dueOn && say(', due {dueOn}', { dueOn: formatDate(loan.dueOn) }),
          })}
        </p>
      )}
    </Notice>
  )
}
