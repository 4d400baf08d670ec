import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { findOrder, putUpsToCome } from '#lib/db/order/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { findThread } from '#lib/db/thread/find-thread'
import { LinkButton } from '#ui/button'
import { CheckField, DateField, FieldRow, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { plural, threadLength } from '#words/amounts'
import { threadTitle } from '#words/thread'
import { editOrderAction, receiveOrderAction } from '../../actions'
import { putUpWords } from '../../words'

export const metadata: Metadata = { title: 'Take in what was ordered' }

export default async function OrderPage({ params }: { params: Promise<{ orderId: string }> }) {
  const { orderId } = await params
  const [{ settings }, order, places] = await Promise.all([getViewer(), findOrder(orderId), listPlaceOptions()])
  if (!order) notFound()
  const { thread } = order
  const { line } = thread
  const held = await findThread(thread.id, { ownerIds: [order.ownerId] })
  const home = held?.batches.find((one) => one.home)?.home
  const lots = [...new Set((held?.batches ?? []).flatMap(({ batch }) => batch.lot ?? []))]
  const toCome = putUpsToCome(order)
  const title = threadTitle(thread)
  const hidden = { orderId, version: String(order.version) }
  return (
    <>
      <PageHead
        title={`Take in ${title}`}
        crumbs={[{ label: 'Buy', href: '/buy' }, { label: 'On order', href: '/buy/on-order' }, { label: title }]}
        byline={`${putUpWords(order.putUps, thread)} of ${threadLength(order.putUpStrandTenths, line.strands, settings.threadUnit)}, ordered ${
          order.supplier ? `from ${order.supplier} ` : ''
        }on ${formatDate(order.orderedOn)} for ${order.ownerName}.${order.receivedPutUps > 0 ? ` ${order.receivedPutUps} have come.` : ''}`}
      />
      {order.closedAt !== null ? (
        <Notice
          kind="done"
          title="This order is closed: all of it has come, or no more is waited for."
          actions={<LinkButton href={`/threads/${thread.id}`}>To the thread</LinkButton>}
        />
      ) : (
        <>
          <Form
            label="Take in what came"
            action={receiveOrderAction}
            submit="Take it in"
            hidden={hidden}
            actions={
              <LinkButton kind="quiet" href="/buy/on-order">
                Leave it
              </LinkButton>
            }
          >
            <NumberField
              name="putUps"
              label={`${plural(line.putUpWord).replace(/^./, (first) => first.toUpperCase())} that came`}
              isWhole
              isRequired
              defaultValue={toCome}
              hint={`${toCome} still to come.`}
            />
            <FieldRow>
              <TextField
                name="lot"
                label="Dye lot"
                defaultValue={order.lot ?? ''}
                suggestions={lots}
                hint={
                  line.lotsMatter
                    ? 'As printed on the band: lots of this line are kept apart. Two lots in one parcel are taken in one after the other.'
                    : 'As printed on the band; empty when unmarked.'
                }
                maxLength={100}
              />
              <TextField
                name="place"
                label="Lives in"
                defaultValue={home?.label ?? ''}
                suggestions={places.map(({ label }) => label)}
                hint="The label of a place; a new one is made. May stay empty."
              />
            </FieldRow>
            <CheckField
              name="closes"
              label="No more of it will come"
              hint="Whatever is still wanting is then no longer waited for."
            />
          </Form>
          <Section title="Change the order">
            <Form label="Change the order" action={editOrderAction} submit="Save it" submitKind="plain" hidden={hidden}>
              <FieldRow>
                <NumberField name="putUps" label="Ordered" isWhole isRequired defaultValue={order.putUps} />
                <TextField name="lot" label="Dye lot asked for" defaultValue={order.lot ?? ''} maxLength={100} />
                <TextField name="supplier" label="Ordered from" defaultValue={order.supplier ?? ''} maxLength={200} />
              </FieldRow>
              <FieldRow>
                <DateField name="orderedOn" label="Ordered on" isRequired defaultValue={order.orderedOn} />
                <DateField name="expectedOn" label="Expected on" defaultValue={order.expectedOn ?? ''} />
              </FieldRow>
              <TextField name="note" label="Note" defaultValue={order.note ?? ''} maxLength={1_000} />
            </Form>
          </Section>
        </>
      )}
    </>
  )
}
