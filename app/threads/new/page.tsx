import type { Metadata } from 'next'
import { listLines } from '#lib/db/thread/list-lines'
import { LinkButton } from '#ui/button'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { lineTitle } from '#words/thread'
import { addThreadAction, addThreadAndLineAction } from '../actions'
import { LineFields, ThreadFields } from '../thread-fields'

export const metadata: Metadata = { title: 'Add a thread' }

type NewThreadPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewThreadPage({ searchParams }: NewThreadPageProps) {
  const [{ line: asked }, lines, { settings }] = await Promise.all([searchParams, listLines(), getViewer()])
  const isNewLine = asked === 'new' || lines.length === 0
  const makerNames = [...new Set(lines.map((line) => line.makerName))]
  return (
    <>
      <PageHead
        title={isNewLine ? 'Add a thread of a new line' : 'Add a thread'}
        crumbs={[{ label: 'Threads', href: '/threads' }, { label: 'Add' }]}
        byline={
          isNewLine
            ? 'A line is what a maker sells under one name: fibre, strands and length are the same for all its threads.'
            : 'How much of it you hold comes after: the next page takes it in.'
        }
      />
      {isNewLine ? (
        <Form
          key="new-line"
          label="A thread of a new line"
          action={addThreadAndLineAction}
          submit="Add line and thread"
          actions={
            <LinkButton kind="quiet" href={lines.length > 0 ? '/threads/new' : '/threads'}>
              {lines.length > 0 ? 'The line is on record already' : 'Leave it'}
            </LinkButton>
          }
        >
          <LineFields currency={settings.currency} unit={settings.threadUnit} makerNames={makerNames} />
          <ThreadFields />
        </Form>
      ) : (
        <Form
          key="known-line"
          label="A thread"
          action={addThreadAction}
          submit="Add the thread"
          actions={
            <LinkButton kind="quiet" href="/threads/new?line=new">
              Its line is not here yet
            </LinkButton>
          }
        >
          <SelectField
            name="lineId"
            label="Maker and line"
            isRequired
            none="choose"
            defaultValue={lines.some(({ id }) => id === asked) ? (asked as string) : ''}
            options={lines.map((line) => ({ value: line.id, label: lineTitle(line) }))}
          />
          <ThreadFields />
        </Form>
      )}
    </>
  )
}
