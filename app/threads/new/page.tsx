import type { Metadata } from 'next'
import { say } from '#language/say'
import { listLines } from '#lib/db/thread/list-lines'
import { LinkButton } from '#ui/button'
import { SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { lineTitle } from '#words/thread'
import { addThreadAction, addThreadAndLineAction } from '../actions'
import { LineFields, ThreadFields } from '../thread-fields'

export const generateMetadata = (): Metadata => ({ title: say('Add a thread') })

type NewThreadPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function NewThreadPage({ searchParams }: NewThreadPageProps) {
  const [{ line: asked }, lines, { settings }] = await Promise.all([searchParams, listLines(), getViewer()])
  const isNewLine = asked === 'new' || lines.length === 0
  const makerNames = [...new Set(lines.map((line) => line.makerName))]
  return (
    <>
      <PageHead
        title={isNewLine ? say('Add a thread of a new line') : say('Add a thread')}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('Add') }]}
        byline={
          isNewLine
            ? say('A line is what a maker sells under one name: fibre, strands and length are the same for all its threads.')
            : say('How much of it you hold comes after: the next page takes it in.')
        }
      />
      {isNewLine ? (
        <Form
          key="new-line"
          label={say('A thread of a new line')}
          action={addThreadAndLineAction}
          submit={say('Add line and thread')}
          actions={
            <LinkButton kind="quiet" href={lines.length > 0 ? '/threads/new' : '/threads'}>
              {lines.length > 0 ? say('The line is on record already') : say('Leave it')}
            </LinkButton>
          }
        >
          <LineFields currency={settings.currency} unit={settings.threadUnit} makerNames={makerNames} />
          <ThreadFields />
        </Form>
      ) : (
        <Form
          key="known-line"
          label={say('A thread')}
          action={addThreadAction}
          submit={say('Add the thread')}
          actions={
            <LinkButton kind="quiet" href="/threads/new?line=new">
              {say('Its line is not here yet')}
            </LinkButton>
          }
        >
          <SelectField
            name="lineId"
            label={say('Maker and line')}
            isRequired
            none={say('choose')}
            defaultValue={lines.some(({ id }) => id === asked) ? (asked as string) : ''}
            options={lines.map((line) => ({ value: line.id, label: lineTitle(line) }))}
          />
          <ThreadFields />
        </Form>
      )}
    </>
  )
}
