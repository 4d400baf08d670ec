import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { StandInRow, ThreadNamed, ThreadPage } from '#lib/db/thread/find-thread'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { threadTitle } from '#words/thread'
import { addStandInAction, removeStandInAction } from '../actions'
import { ThreadMark } from '../thread-mark'
import s from '../threads.module.css'

/** What was accepted to stand in, and what brought-in lists say: one way each, never passed along from one to the next. */
export function StandInsSection({ thread }: { thread: ThreadPage }) {
  const { standIns, standsInFor, opinions, opinionsFor } = thread
  return (
    <Section
      title={say('Stand-ins')}
      id="stand-ins"
      note={say('Opinions, one way, never passed along from one to the next.')}
      actions={<LinkButton href={`/threads/${thread.id}/swaps`}>{say('Look for a swap')}</LinkButton>}
    >
      <div className={s.columns}>
        <div>
          <h3>{say('What may stand in for it')}</h3>
          <StandInList rows={standIns} none={say('None accepted yet.')} canRemove />
          <OpinionList rows={opinions} thread={thread} accepted={standIns} />
          <div className={s.gap}>
            <Form
              label={say('Add a stand-in')}
              action={addStandInAction}
              submit={say('Add the stand-in')}
              submitKind="plain"
              hidden={{ threadId: thread.id }}
              clearsWhenDone
            >
              <FieldRow>
                <TextField
                  name="standIn"
                  label={say('Thread')}
                  hint={say('Maker and exact code.')}
                  placeholder={say('Larkholm 0017')}
                />
                <TextField
                  name="source"
                  label={say('Who says so')}
                  hint={say('A list, a friend, your own look by daylight.')}
                  maxLength={300}
                />
              </FieldRow>
            </Form>
          </div>
        </div>
        <div>
          <h3>{say('What it may stand in for')}</h3>
          <StandInList rows={standsInFor} none={say('Nothing accepted yet.')} />
          <OpinionList rows={opinionsFor} />
        </div>
      </div>
    </Section>
  )
}

function StandInList({ rows, none, canRemove = false }: { rows: readonly StandInRow[]; none: string; canRemove?: boolean }) {
  if (rows.length === 0) return <p className="quiet">{none}</p>
  return (
    <ul className={s.list}>
      {rows.map(({ standInId, source, thread }) => (
        <li key={standInId}>
          <Named thread={thread} note={source} />
          {canRemove && (
            <ConfirmDialog
              opener={sayParts('Take off{threadTitle}', { threadTitle: <span className="vh"> {threadTitle(thread)}</span> })}
              openerKind="quiet"
              title={say('No longer let {threadTitle} stand in?', { threadTitle: threadTitle(thread) })}
              confirm={say('Take it off')}
              action={removeStandInAction}
              hidden={{ standInId }}
            >
              <p>{say('Designs that counted on it are reckoned anew. It can be added again.')}</p>
            </ConfirmDialog>
          )}
        </li>
      ))}
    </ul>
  )
}

type OpinionProps = {
  rows: readonly { sourceName: string; thread: ThreadNamed }[]
  /** For which an opinion can be accepted with one press. */
  thread?: ThreadPage
  accepted?: readonly StandInRow[]
}

/** What brought-in lists say. It counts for nothing until somebody accepts it. */
function OpinionList({ rows, thread, accepted = [] }: OpinionProps) {
  if (rows.length === 0) return null
  return (
    <>
      <h4 className={s.gap}>{say('Said by lists')}</h4>
      <ul className={s.list}>
        {rows.map(({ sourceName, thread: other }) => (
          <li key={`${sourceName} ${other.id}`}>
            <Named thread={other} note={say('says {sourceName}', { sourceName })} />
            {thread &&
              (accepted.some((row) => row.thread.id === other.id) ? (
                <span className="quiet">{say('accepted')}</span>
              ) : (
                <Form
                  action={addStandInAction}
                  hidden={{ threadId: thread.id, standIn: threadTitle({ ...other, name: null }), source: sourceName }}
                  submit={sayParts('Accept{threadTitle}', { threadTitle: <span className="vh"> {threadTitle(other)}</span> })}
                  submitKind="quiet"
                  isInline
                />
              ))}
          </li>
        ))}
      </ul>
    </>
  )
}

const Named = ({ thread, note }: { thread: ThreadNamed; note: string | null }) => (
  <span className={s.head}>
    <ThreadMark lab={thread.lab} dyeing={thread.line.dyeing} />
    <span>
      <Link href={`/threads/${thread.id}`}>{threadTitle(thread)}</Link>
      {note && <small>{note}</small>}
    </span>
  </span>
)
