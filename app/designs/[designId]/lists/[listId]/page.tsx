import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findDesignCard, findThreadList } from '#lib/db/chart/queries'
import { ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { removeListAction } from '../../../../_charts/list-actions'
import { ListForm } from '../../../../_charts/list-form'

export const generateMetadata = (): Metadata => ({ title: say('Change a thread list') })

type PageProps = { params: Promise<{ designId: string; listId: string }>; searchParams: Promise<{ saved?: string | string[] }> }

export default async function ListPage({ params, searchParams }: PageProps) {
  const [{ designId, listId }, { saved }] = await Promise.all([params, searchParams])
  const [list, card] = await Promise.all([findThreadList(designId, listId), findDesignCard(designId)])
  if (!list || !card) notFound()
  const { chart, input } = card
  return (
    <>
      <PageHead
        title={`${list.name}, ${input.title}`}
        note={counted(list.keyLines.length, 'line')}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: chart.title, href: `/charts/${chart.id}` },
          { label: input.title, href: `/designs/${designId}` },
          { label: list.name },
        ]}
        byline={say(
          "A colour's name is filled in where the thread has none; a name on record is changed on the thread's own page.",
        )}
      />
      {typeof saved === 'string' && list.version === 0 && (
        <Notice
          kind="done"
          title={say('The list is saved.')}
          actions={
            <LinkButton kind="first" href={`/designs/${designId}`}>
              {say('Can it be stitched?')}
            </LinkButton>
          }
        >
          {describeAdded(Number(saved))}
        </Notice>
      )}
      <ListForm designId={designId} list={list} isFirst={false} />
      <Section title={say('Take the list away')}>
        <ButtonRow>
          <ConfirmDialog
            opener={say('Take it away')}
            title={say('Take {name} away?', { name: list.name })}
            confirm={say('Take it away')}
            action={removeListAction}
            hidden={{ id: list.id, version: String(list.version) }}
          >
            <p>{say('Its key goes with it; the threads stay on record. This cannot be undone.')}</p>
          </ConfirmDialog>
        </ButtonRow>
      </Section>
    </>
  )
}

const describeAdded = (count: number): string =>
  Number.isSafeInteger(count) && count > 0
    ? say('{count, plural, one {# thread} other {# threads}} new on record.', { count })
    : say('All its threads were on record already.')
