import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findNotion } from '#lib/db/notion/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { notionTitle } from '#words/notion'
import { editNotionAction } from '../../actions'
import { NotionFields } from '../../notion-fields'

export const generateMetadata = (): Metadata => ({ title: say('Change a notion') })

export default async function EditNotionPage({ params }: { params: Promise<{ notionId: string }> }) {
  const notion = await findNotion((await params).notionId)
  if (!notion || notion.isGone) notFound()
  return (
    <>
      <PageHead
        title={say('Change {notionTitle}', { notionTitle: notionTitle(notion) })}
        crumbs={[
          { label: say('Notions'), href: '/notions' },
          { label: notionTitle(notion), href: `/notions/${notion.id}` },
          { label: say('Change') },
        ]}
      />
      <Form
        action={editNotionAction}
        hidden={{ id: notion.id, version: String(notion.version) }}
        submit={say('Save')}
        actions={<LinkButton href={`/notions/${notion.id}`}>{say('Leave it')}</LinkButton>}
      >
        <NotionFields held={notion} />
      </Form>
    </>
  )
}
