import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { listPlaceOptions } from '#lib/db/place/queries'
import { findThreadFigures } from '#lib/db/stock/queries'
import { findThread } from '#lib/db/thread/find-thread'
import { putUpWords } from '#lib/stock/batch'
import { NobodyOwns } from '#trade/nobody-owns'
import { OwnerField } from '#trade/owner-field'
import { LinkButton } from '#ui/button'
import { FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { threadLength } from '#words/amounts'
import { threadTitle } from '#words/thread'
import { receiveAction } from '../../batch-actions'
import { PartFields } from '../../part-fields'

export const metadata: Metadata = { title: 'Take thread in' }

export default async function ReceivePage({ params }: { params: Promise<{ threadId: string }> }) {
  const { threadId } = await params
  const { settings, owners, ownerIds } = await getViewer()
  const [thread, places, figures] = await Promise.all([
    findThread(threadId, { ownerIds }),
    listPlaceOptions(),
    findThreadFigures(threadId),
  ])
  if (!thread) notFound()
  const { line, batches } = thread
  const page = `/threads/${thread.id}`
  const lots = [...new Set(batches.flatMap(({ batch }) => batch.lot ?? []))]
  const home = batches.find((held) => held.home)?.home
  return (
    <>
      <PageHead
        title={`Take in ${threadTitle(thread)}`}
        crumbs={[{ label: 'Threads', href: '/threads' }, { label: threadTitle(thread), href: page }, { label: 'Take in' }]}
        byline={
          line.lotsMatter
            ? 'Lots of this line are kept apart. What has no lot mark stays by itself: nobody could say later that it matches.'
            : 'It is laid with what is there already when lot, put-up, owner and place are the same.'
        }
      />
      {owners.length === 0 ? (
        <NobodyOwns>Stock always belongs to somebody.</NobodyOwns>
      ) : (
        <Form
          label="Take thread in"
          action={receiveAction}
          submit="Take it in"
          hidden={{ threadId: thread.id }}
          actions={
            <LinkButton kind="quiet" href={page}>
              Leave it
            </LinkButton>
          }
        >
          <PartFields line={line} unit={settings.threadUnit} canWeigh={figures?.putUpMilligrams != null} />
          <FieldRow>
            <TextField
              name="putUpWord"
              label="One is a"
              placeholder={line.putUpWord}
              suggestions={putUpWords}
              hint={`Empty: a ${line.putUpWord}, as the line says.`}
              maxLength={40}
            />
            <TextField
              name="putUpStrandTenths"
              label="Length of one"
              placeholder={threadLength(line.putUpStrandTenths, line.strands, settings.threadUnit)}
              hint="Empty: as the line says."
            />
          </FieldRow>
          <TextField name="lot" label="Dye lot" suggestions={lots} hint="As printed; empty when unmarked." maxLength={100} />
          <FieldRow>
            <TextField
              name="place"
              label="Lives in"
              defaultValue={home?.label ?? ''}
              suggestions={places.map((place) => place.label)}
              hint="The label of a place; a new one is made. May stay empty."
            />
            <OwnerField label="Whose it is" owners={owners} ownerIds={ownerIds} />
          </FieldRow>
          <TextField name="reason" label="Where from" hint="Bought, gift, swap; it stands in the history." maxLength={500} />
        </Form>
      )}
    </>
  )
}
