import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findThread } from '#lib/db/thread/find-thread'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { lineTitle, threadTitle } from '#words/thread'
import { editThreadAction, removeThreadAction } from '../../actions'
import { ThreadFields } from '../../thread-fields'

export const metadata: Metadata = { title: 'Change a thread' }

export default async function EditThreadPage({ params }: { params: Promise<{ threadId: string }> }) {
  const { threadId } = await params
  const thread = await findThread(threadId, { ownerIds: [] })
  if (!thread) notFound()
  const page = `/threads/${thread.id}`
  const hidden = { threadId: thread.id, version: String(thread.version) }
  return (
    <>
      <PageHead
        title={`Change ${threadTitle(thread)}`}
        crumbs={[{ label: 'Threads', href: '/threads' }, { label: threadTitle(thread), href: page }, { label: 'Change' }]}
        byline="Stock, keys and history stay with the thread whatever it is called."
        actions={<LinkButton href={`/threads/lines/${thread.line.id}`}>Change the line {lineTitle(thread.line)}</LinkButton>}
      />
      <Form
        label="The thread"
        action={editThreadAction}
        submit="Keep the changes"
        hidden={{ ...hidden, labBefore: thread.lab ? `${thread.lab.L} ${thread.lab.a} ${thread.lab.b}` : '' }}
        actions={
          <LinkButton kind="quiet" href={page}>
            Leave it
          </LinkButton>
        }
      >
        <ThreadFields thread={thread} />
      </Form>

      <Section title="Remove it" note="Only when nobody holds any of it and no key names it.">
        <ConfirmDialog
          opener="Remove this thread"
          title={`Remove ${threadTitle(thread)}?`}
          confirm="Remove it"
          action={removeThreadAction}
          hidden={hidden}
        >
          <p>It goes from every list. Its history is kept: adding the same code to the same line brings it back.</p>
        </ConfirmDialog>
      </Section>
    </>
  )
}
