import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findProjectBulk, nameProjects } from '#lib/db/project-bulk/queries'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import s from '../../../../_listing/bulk.module.css'
import { undoProjectBulkAction } from '../../actions'
import { LinesTable, linesShown, shownNote } from '../../lines-table'
import { leftWords } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Many projects changed') })

/** A change that was made, and the way back. */
export default async function ProjectBulkDonePage({ params }: { params: Promise<{ bulkEditId: string }> }) {
  const { bulkEditId } = await params
  const edit = await findProjectBulk(bulkEditId)
  if (!edit) notFound()
  const [shown, left] = [edit.steps.slice(0, linesShown), edit.left.slice(0, linesShown)]
  const names = await nameProjects([...shown, ...left].map(({ id }) => id))
  const takenBack = edit.steps.length - edit.left.length
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, 'project')}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: say('Chosen'), href: '/projects/bulk' },
          { label: edit.what },
        ]}
        byline={`${dayOf(edit.at)}${edit.who ? say(', by {who}', { who: edit.who }) : ''}.`}
        actions={<LinkButton href="/projects">{say('To the projects')}</LinkButton>}
      />
      {edit.isUndone ? (
        <Notice kind="done" title={say('Taken back: {counted} as before.', { counted: counted(takenBack, 'project') })}>
          {edit.left.length > 0 && say('{counted} left alone, named below.', { counted: counted(edit.left.length, 'project') })}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={say('Done: {counted} changed.', { counted: counted(edit.steps.length, 'project') })}
          actions={
            <ConfirmDialog
              opener={say('Take it back')}
              title={say('Take back “{what}”?', { what: edit.what })}
              confirm={say('Take it back')}
              action={undoProjectBulkAction}
              hidden={{ bulkEditId: edit.id }}
            >
              <p>{say('Everything is as it was before. What somebody changed since is left alone, and named.')}</p>
            </ConfirmDialog>
          }
        />
      )}
      {left.length > 0 && (
        <Section title={say('Left alone')}>
          <ul className={s.edits}>
            {left.map(({ id, why }) => (
              <li key={id}>
                <span>{names.get(id) ?? say('a project that is not there any more')}</span>
                <span>{leftWords[why]}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section title={say('What changed')} note={shownNote(edit.steps.length)}>
        <LinesTable
          caption={say('{what}: before and after', { what: edit.what })}
          change={edit.change}
          names={names}
          lines={shown}
        />
      </Section>
    </>
  )
}
