import type { Metadata } from 'next'
import { say } from '#language/say'
import { readThingsToLend } from '#lib/db/loan/read-things'
import { listPlaceOptions } from '#lib/db/place/queries'
import { isPeople } from '#lib/place/place'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { SelectField, TextArea, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { borrowAction } from '../actions'
import { FindThings } from '../find-things'
import { thingsQuerySchema } from '../schema'
import { TermsFields } from '../terms-fields'
import { ThingsFields } from '../things-fields'

export const generateMetadata = (): Metadata => ({ title: say('Borrow') })

export default async function BorrowPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const query = thingsQuerySchema.parse(await searchParams)
  const [{ owners, ownerIds }, things, places] = await Promise.all([
    getViewer(),
    readThingsToLend({ charts: query.chart, batches: query.batch, cloth: query.cloth, notions: query.notion }),
    listPlaceOptions(),
  ])
  const others = owners.filter(({ id }) => id !== ownerIds[0])
  return (
    <>
      <PageHead
        title={say('Borrow')}
        crumbs={[{ label: say('Out and back'), href: '/loans' }, { label: say('Borrow') }]}
        byline={say('What is here and is somebody else’s, so that it finds its way back.')}
      />
      {owners.length === 0 ? (
        <Empty title={say('Who borrows?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <>
          <Form
            action={borrowAction}
            submit={say('Write it down')}
            actions={<LinkButton href="/loans">{say('Leave it')}</LinkButton>}
          >
            {things.length > 0 && <ThingsFields things={things} />}
            <TextArea
              name="others"
              label={things.length > 0 ? say('What else') : say('What is borrowed')}
              hint={say('One a line, in your own words')}
              rows={3}
            />
            <TermsFields
              places={places}
              today={calendarDay(new Date())}
              who={say('From whom')}
              isDueNeeded={false}
              reasonHint={say('A frame big enough, a chart to look at')}
            />
            {things.length > 0 && (
              <TextField
                name="keptInLabel"
                label={say('Where it is kept meanwhile')}
                hint={say('The label of a place; it counts as out there for its owner')}
                suggestions={places
                  .filter(({ kind }) => !isPeople(kind))
                  .slice(0, 300)
                  .map(({ label }) => label)}
                maxLength={100}
                width="half"
                isRequired
              />
            )}
            <SelectField
              name="ownerId"
              label={say('Who borrows')}
              options={owners.map(({ id, name }) => ({ value: id, label: name }))}
              defaultValue={ownerIds[0]}
              width="half"
            />
            <TextArea name="note" label={say('Note')} rows={2} />
          </Form>
          {others.length > 0 && (
            <FindThings
              page="/loans/borrow"
              query={query}
              ownerIds={others.map(({ id }) => id)}
              title={say('A thing of another owner here')}
            />
          )}
        </>
      )}
    </>
  )
}
