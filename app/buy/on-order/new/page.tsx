import type { Metadata } from 'next'
import { say } from '#language/say'
import { newId } from '#lib/db/new-id'
import { findThreadNamed } from '#lib/db/thread/find-thread'
import { NobodyOwns } from '#trade/nobody-owns'
import { OwnerField } from '#trade/owner-field'
import { LinkButton } from '#ui/button'
import { DateField, FieldRow, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { singular, threadLength } from '#words/amounts'
import { calendarDay } from '#words/date'
import { lineTitle } from '#words/thread'
import { orderByHandAction } from '../../actions'

export const generateMetadata = (): Metadata => ({ title: say('Put down an order') })

type NewOrderPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewOrderPage({ searchParams }: NewOrderPageProps) {
  const { thread: asked } = await searchParams
  const { settings, owners, ownerIds } = await getViewer()
  const thread = typeof asked === 'string' ? await findThreadNamed(asked) : null
  const one = thread?.line.putUpWord ?? 'one'
  return (
    <>
      <PageHead
        title={say('Put down an order')}
        crumbs={[
          { label: say('Buy'), href: '/buy' },
          { label: say('On order'), href: '/buy/on-order' },
          { label: say('Put down an order') },
        ]}
        byline={say('One thread that was ordered. Stock changes only when it comes in.')}
      />
      {owners.length === 0 ? (
        <NobodyOwns>{say('An order is always somebody’s.')}</NobodyOwns>
      ) : (
        <Form
          label={say('Put down an order')}
          action={orderByHandAction}
          submit={say('Put it down')}
          hidden={{ orderId: newId() }}
          actions={
            <LinkButton kind="quiet" href="/buy/on-order">
              {say('Leave it')}
            </LinkButton>
          }
        >
          <TextField
            name="thread"
            label={say('Thread')}
            isRequired
            hint={say('Maker and exact code.')}
            placeholder={say('Larkholm 0017')}
            defaultValue={thread ? `${lineTitle(thread.line)} ${thread.code}` : ''}
            maxLength={300}
          />
          <FieldRow>
            <NumberField name="putUps" label={say('How many')} isWhole isRequired />
            <TextField
              name="putUpTenths"
              label={say('Length of {one}', { one: thread ? say('one {one}', { one: singular(one) }) : say('one') })}
              placeholder={thread ? threadLength(thread.line.putUpStrandTenths, thread.line.strands, settings.threadUnit) : '8 m'}
              hint={say('Empty: as the line says.')}
            />
            <TextField name="lot" label={say('Dye lot')} hint={say('Where a certain one was asked for.')} maxLength={100} />
          </FieldRow>
          <FieldRow>
            <TextField name="supplier" label={say('Ordered from')} defaultValue={thread?.line.makerName ?? ''} maxLength={200} />
            <OwnerField label={say('For')} owners={owners} ownerIds={ownerIds} />
          </FieldRow>
          <FieldRow>
            <DateField name="orderedOn" label={say('Ordered on')} isRequired defaultValue={calendarDay(new Date())} />
            <DateField name="expectedOn" label={say('Expected on')} />
          </FieldRow>
          <TextField name="note" label={say('Note')} maxLength={1_000} />
        </Form>
      )}
    </>
  )
}
