import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { nameLines } from '#lib/db/bulk-edit/name-lines'
import { findBulkEdit } from '#lib/db/bulk-edit/queries'
import { LinkButton } from '#ui/button'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import s from '../../../../_listing/bulk.module.css'
import { DoneNotice } from '../../../../_listing/done-notice'
import { undoBulkEditAction } from '../../actions'
import { LineName, LinesTable } from '../../lines-table'
import { describeLeft } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Many threads changed') })

const linesShown = 300

export default async function BulkDonePage({ params }: { params: Promise<{ bulkEditId: string }> }) {
  const { bulkEditId } = await params
  const [edit, { settings }] = await Promise.all([findBulkEdit(bulkEditId), getViewer()])
  if (!edit) notFound()
  const shown = edit.steps.slice(0, linesShown)
  const names = await nameLines([...shown, ...edit.left])
  const unit = settings.threadUnit
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, 'line')}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: say('Change many'), href: '/threads/bulk' },
          { label: edit.what },
        ]}
        byline={`${dayOf(edit.at)}${edit.who ? say(', by {who}', { who: edit.who }) : ''}.`}
        actions={<LinkButton href="/threads/bulk">{say('Change more')}</LinkButton>}
      />
      <DoneNotice edit={edit} undo={undoBulkEditAction} />
      {edit.left.length > 0 && (
        <Section title={say('Left alone')}>
          <ul className={s.edits}>
            {edit.left.map((left) => (
              <li key={`${left.threadId} ${left.batchId}`}>
                <LineName threadId={left.threadId} batchId={left.batchId} names={names} unit={unit} />
                <span>{describeLeft(left)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section
        title={say('What changed')}
        note={
          edit.steps.length > shown.length
            ? say('The first {shown} of {steps}.', { shown: shown.length, steps: edit.steps.length })
            : undefined
        }
      >
        <LinesTable
          caption={say('{what}: before and after', { what: edit.what })}
          change={edit.change}
          names={names}
          unit={unit}
          groups={[{ key: 'all', rows: shown.map((step) => ({ ...step, note: null, isChanged: true })) }]}
        />
      </Section>
    </>
  )
}
