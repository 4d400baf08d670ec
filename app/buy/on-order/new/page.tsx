import type { Metadata } from 'next'
import { newId } from '#lib/db/new-id'
import { findThreadNamed } from '#lib/db/thread/find-thread'
import { NobodyOwns } from '#trade/nobody-owns'
import { OwnerField } from '#trade/owner-field'
import { LinkButton } from '#ui/button'
import { DateField, FieldRow, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { threadLength } from '#words/amounts'
import { calendarDay } from '#words/date'
import { lineTitle } from '#words/thread'
import { orderByHandAction } from '../../actions'

export const metadata: Metadata = { title: 'Put down an order' }

type NewOrderPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewOrderPage({ searchParams }: NewOrderPageProps) {
  const { thread: asked } = await searchParams
  const { settings, owners, ownerIds } = await getViewer()
  const thread = typeof asked === 'string' ? await findThreadNamed(asked) : null
  const one = thread?.line.putUpWord ?? 'one'
  return (
    <>
      <PageHead
        title="Put down an order"
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'On order', href: '/buy/on-order' }, { label: 'Put down an order' }]}
        byline="One thread that was ordered. Stock changes only when it comes in."
      />
      {owners.length === 0 ? (
        <NobodyOwns>An order is always somebody’s.</NobodyOwns>
      ) : (
        <Form
          label="Put down an order"
          action={orderByHandAction}
          submit="Put it down"
          hidden={{ orderId: newId() }}
          actions={
            <LinkButton kind="quiet" href="/buy/on-order">
              Leave it
            </LinkButton>
          }
        >
          <TextField
            name="thread"
            label="Thread"
            isRequired
            hint="Maker and exact code."
            placeholder="Larkholm 0017"
            defaultValue={thread ? `${lineTitle(thread.line)} ${thread.code}` : ''}
            maxLength={300}
          />
          <FieldRow>
            <NumberField name="putUps" label="How many" isWhole isRequired />
            <TextField
              name="putUpTenths"
              label={`Length of ${one === 'one' ? one : `one ${one}`}`}
              placeholder={thread ? threadLength(thread.line.putUpStrandTenths, thread.line.strands, settings.threadUnit) : '8 m'}
              hint="Empty: as the line says."
            />
            <TextField name="lot" label="Dye lot" hint="Where a certain one was asked for." maxLength={100} />
          </FieldRow>
          <FieldRow>
            <TextField name="supplier" label="Ordered from" defaultValue={thread?.line.makerName ?? ''} maxLength={200} />
            <OwnerField label="For" owners={owners} ownerIds={ownerIds} />
          </FieldRow>
          <FieldRow>
            <DateField name="orderedOn" label="Ordered on" isRequired defaultValue={calendarDay(new Date())} />
            <DateField name="expectedOn" label="Expected on" />
          </FieldRow>
          <TextField name="note" label="Note" maxLength={1_000} />
        </Form>
      )}
    </>
  )
}
