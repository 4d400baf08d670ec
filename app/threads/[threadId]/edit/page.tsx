import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findThread } from '#lib/db/thread/find-thread'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { lineTitle, threadTitle } from '#words/thread'
import { editThreadAction, removeThreadAction } from '../../actions'
import { ThreadFields } from '../../thread-fields'

export const generateMetadata = (): Metadata => ({ title: say('Change a thread') })

export default async function EditThreadPage({ params }: { params: Promise<{ threadId: string }> }) {
  const { threadId } = await params
  const thread = await findThread(threadId, { ownerIds: [] })
  if (!thread) notFound()
  const page = `/threads/${thread.id}`
  const hidden = { threadId: thread.id, version: String(thread.version) }
  return (
    <>
      <PageHead
        title={say('Change {threadTitle}', { threadTitle: threadTitle(thread) })}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: threadTitle(thread), href: page },
          { label: say('Change') },
        ]}
        byline={say('Stock, keys and history stay with the thread whatever it is called.')}
        actions={
          <LinkButton href={`/threads/lines/${thread.line.id}`}>
            {sayParts('Change the line {lineTitle}', { lineTitle: lineTitle(thread.line) })}
          </LinkButton>
        }
      />
      <Form
        label={say('The thread')}
        action={editThreadAction}
        submit={say('Keep the changes')}
        hidden={{ ...hidden, labBefore: thread.lab ? `${thread.lab.L} ${thread.lab.a} ${thread.lab.b}` : '' }}
        actions={
          <LinkButton kind="quiet" href={page}>
            {say('Leave it')}
          </LinkButton>
        }
      >
        <ThreadFields thread={thread} />
      </Form>
      <Section title={say('Remove it')} note={say('Only when nobody holds any of it and no key names it.')}>
        <ConfirmDialog
          opener={say('Remove this thread')}
          title={say('Remove {threadTitle}?', { threadTitle: threadTitle(thread) })}
          confirm={say('Remove it')}
          action={removeThreadAction}
          hidden={hidden}
        >
          <p>{say('It goes from every list. Its history is kept: adding the same code to the same line brings it back.')}</p>
        </ConfirmDialog>
      </Section>
    </>
  )
}
