import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { say } from '#language/say'
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

export const generateMetadata = (): Metadata => ({ title: say('Take in what was ordered') })

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
        title={say('Take in {title}', { title })}
        crumbs={[{ label: say('Buy'), href: '/buy' }, { label: say('On order'), href: '/buy/on-order' }, { label: title }]}
        byline={say('{putUp} of {threadLength}, ordered {rest}on {orderedOn} for {ownerName}.{rest2}', {
          putUp: putUpWords(order.putUps, thread),
          threadLength: threadLength(order.putUpStrandTenths, line.strands, settings.threadUnit),
          rest: order.supplier ? say('from {supplier} ', { supplier: order.supplier }) : '',
          orderedOn: formatDate(order.orderedOn),
          ownerName: order.ownerName,
          rest2: order.receivedPutUps > 0 ? say(' {receivedPutUps} have come.', { receivedPutUps: order.receivedPutUps }) : '',
        })}
      />
      {order.closedAt !== null ? (
        <Notice
          kind="done"
          title={say('This order is closed: all of it has come, or no more is waited for.')}
          actions={<LinkButton href={`/threads/${thread.id}`}>{say('To the thread')}</LinkButton>}
        />
      ) : (
        <>
          <Form
            label={say('Take in what came')}
            action={receiveOrderAction}
            submit={say('Take it in')}
            hidden={hidden}
            actions={
              <LinkButton kind="quiet" href="/buy/on-order">
                {say('Leave it')}
              </LinkButton>
            }
          >
            <NumberField
              name="putUps"
              label={say('{replace} that came', {
                replace: plural(line.putUpWord).replace(/^./, (first) => first.toUpperCase()),
              })}
              isWhole
              isRequired
              defaultValue={toCome}
              hint={say('{toCome} still to come.', { toCome })}
            />
            <FieldRow>
              <TextField
                name="lot"
                label={say('Dye lot')}
                defaultValue={order.lot ?? ''}
                suggestions={lots}
                hint={
                  line.lotsMatter
                    ? say(
                        'As printed on the band: lots of this line are kept apart. Two lots in one parcel are taken in one after the other.',
                      )
                    : say('As printed on the band; empty when unmarked.')
                }
                maxLength={100}
              />
              <TextField
                name="place"
                label={say('Lives in')}
                defaultValue={home?.label ?? ''}
                suggestions={places.map(({ label }) => label)}
                hint={say('The label of a place; a new one is made. May stay empty.')}
              />
            </FieldRow>
            <CheckField
              name="closes"
              label={say('No more of it will come')}
              hint={say('Whatever is still wanting is then no longer waited for.')}
            />
          </Form>
          <Section title={say('Change the order')}>
            <Form
              label={say('Change the order')}
              action={editOrderAction}
              submit={say('Save it')}
              submitKind="plain"
              hidden={hidden}
            >
              <FieldRow>
                <NumberField name="putUps" label={say('Ordered')} isWhole isRequired defaultValue={order.putUps} />
                <TextField name="lot" label={say('Dye lot asked for')} defaultValue={order.lot ?? ''} maxLength={100} />
                <TextField name="supplier" label={say('Ordered from')} defaultValue={order.supplier ?? ''} maxLength={200} />
              </FieldRow>
              <FieldRow>
                <DateField name="orderedOn" label={say('Ordered on')} isRequired defaultValue={order.orderedOn} />
                <DateField name="expectedOn" label={say('Expected on')} defaultValue={order.expectedOn ?? ''} />
              </FieldRow>
              <TextField name="note" label={say('Note')} defaultValue={order.note ?? ''} maxLength={1_000} />
            </Form>
          </Section>
        </>
      )}
    </>
  )
}
