import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findNotion } from '#lib/db/notion/queries'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { notionTitle } from '#words/notion'
import { editNotionAction } from '../../actions'
import { NotionFields } from '../../notion-fields'

export const metadata: Metadata = { title: 'Change a notion' }

export default async function EditNotionPage({ params }: { params: Promise<{ notionId: string }> }) {
  const notion = await findNotion((await params).notionId)
  if (!notion || notion.isGone) notFound()
  return (
    <>
      <PageHead
        title={`Change ${notionTitle(notion)}`}
        crumbs={[
          { label: 'Notions', href: '/notions' },
          { label: notionTitle(notion), href: `/notions/${notion.id}` },
          { label: 'Change' },
        ]}
      />
      <Form
        action={editNotionAction}
        hidden={{ id: notion.id, version: String(notion.version) }}
        submit="Save"
        actions={<LinkButton href={`/notions/${notion.id}`}>Leave it</LinkButton>}
      >
        <NotionFields held={notion} />
      </Form>
    </>
  )
}
