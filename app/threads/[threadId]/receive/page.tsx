import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
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
import { singular, threadLength } from '#words/amounts'
import { threadTitle } from '#words/thread'
import { receiveAction } from '../../batch-actions'
import { PartFields } from '../../part-fields'

export const generateMetadata = (): Metadata => ({ title: say('Take thread in') })

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
        title={say('Take in {threadTitle}', { threadTitle: threadTitle(thread) })}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: threadTitle(thread), href: page },
          { label: say('Take in') },
        ]}
        byline={
          line.lotsMatter
            ? say(
                'Lots of this line are kept apart. What has no lot mark stays by itself: nobody could say later that it matches.',
              )
            : say('It is laid with what is there already when lot, put-up, owner and place are the same.')
        }
      />
      {owners.length === 0 ? (
        <NobodyOwns>{say('Stock always belongs to somebody.')}</NobodyOwns>
      ) : (
        <Form
          label={say('Take thread in')}
          action={receiveAction}
          submit={say('Take it in')}
          hidden={{ threadId: thread.id }}
          actions={
            <LinkButton kind="quiet" href={page}>
              {say('Leave it')}
            </LinkButton>
          }
        >
          <PartFields line={line} unit={settings.threadUnit} canWeigh={figures?.putUpMilligrams != null} />
          <FieldRow>
            <TextField
              name="putUpWord"
              label={say('One is a')}
              placeholder={singular(line.putUpWord)}
              suggestions={putUpWords.map(singular)}
              hint={say('Empty: a {putUpWord}, as the line says.', { putUpWord: singular(line.putUpWord) })}
              maxLength={40}
            />
            <TextField
              name="putUpStrandTenths"
              label={say('Length of one')}
              placeholder={threadLength(line.putUpStrandTenths, line.strands, settings.threadUnit)}
              hint={say('Empty: as the line says.')}
            />
          </FieldRow>
          <TextField
            name="lot"
            label={say('Dye lot')}
            suggestions={lots}
            hint={say('As printed; empty when unmarked.')}
            maxLength={100}
          />
          <FieldRow>
            <TextField
              name="place"
              label={say('Lives in')}
              defaultValue={home?.label ?? ''}
              suggestions={places.map((place) => place.label)}
              hint={say('The label of a place; a new one is made. May stay empty.')}
            />
            <OwnerField label={say('Whose it is')} owners={owners} ownerIds={ownerIds} />
          </FieldRow>
          <TextField
            name="reason"
            label={say('Where from')}
            hint={say('Bought, gift, swap; it stands in the history.')}
            maxLength={500}
          />
        </Form>
      )}
    </>
  )
}
