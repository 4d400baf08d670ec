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
      title="Stand-ins"
      id="stand-ins"
      note="Opinions, one way, never passed along from one to the next."
      actions={<LinkButton href={`/threads/${thread.id}/swaps`}>Look for a swap</LinkButton>}
    >
      <div className={s.columns}>
        <div>
          <h3>What may stand in for it</h3>
          <StandInList rows={standIns} none="None accepted yet." canRemove />
          <OpinionList rows={opinions} thread={thread} accepted={standIns} />
          <div className={s.gap}>
            <Form
              label="Add a stand-in"
              action={addStandInAction}
              submit="Add the stand-in"
              submitKind="plain"
              hidden={{ threadId: thread.id }}
              clearsWhenDone
            >
              <FieldRow>
                <TextField name="standIn" label="Thread" hint="Maker and exact code." placeholder="Larkholm 0017" />
                <TextField
                  name="source"
                  label="Who says so"
                  hint="A list, a friend, your own look by daylight."
                  maxLength={300}
                />
              </FieldRow>
            </Form>
          </div>
        </div>
        <div>
          <h3>What it may stand in for</h3>
          <StandInList rows={standsInFor} none="Nothing accepted yet." />
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
              opener={
                <>
                  Take off<span className="vh"> {threadTitle(thread)}</span>
                </>
              }
              openerKind="quiet"
              title={`No longer let ${threadTitle(thread)} stand in?`}
              confirm="Take it off"
              action={removeStandInAction}
              hidden={{ standInId }}
            >
              <p>Designs that counted on it are reckoned anew. It can be added again.</p>
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
      <h4 className={s.gap}>Said by lists</h4>
      <ul className={s.list}>
        {rows.map(({ sourceName, thread: other }) => (
          <li key={`${sourceName} ${other.id}`}>
            <Named thread={other} note={`says ${sourceName}`} />
            {thread &&
              (accepted.some((row) => row.thread.id === other.id) ? (
                <span className="quiet">accepted</span>
              ) : (
                <Form
                  action={addStandInAction}
                  hidden={{ threadId: thread.id, standIn: threadTitle({ ...other, name: null }), source: sourceName }}
                  submit={
                    <>
                      Accept<span className="vh"> {threadTitle(other)}</span>
                    </>
                  }
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
