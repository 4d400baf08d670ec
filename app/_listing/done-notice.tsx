import type { FormAction } from '#forms/form-state'
import { say } from '#language/say'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Notice } from '#ui/notice'

type DoneNoticeProps = {
  edit: { id: string; what: string; isUndone: boolean; steps: readonly unknown[]; left: readonly unknown[] }
  undo: FormAction
}

/** That a change of many was done, with the way back; or that it was taken back, and how much was left alone. */
export function DoneNotice({ edit: { id, what, isUndone, steps, left }, undo }: DoneNoticeProps) {
  const takenBack = steps.length - left.length
  if (isUndone)
    return (
      <Notice kind="done" title={say('Taken back: {takenBack, plural, one {# line} other {# lines}} as before.', { takenBack })}>
        {left.length > 0 && say('{left, plural, one {# line} other {# lines}} left alone, named below.', { left: left.length })}
      </Notice>
    )
  return (
    <Notice
      kind="done"
      title={say('Done: {steps, plural, one {# line} other {# lines}} changed.', { steps: steps.length })}
      actions={
        <ConfirmDialog
          opener={say('Take it back')}
          title={say('Take back “{what}”?', { what })}
          confirm={say('Take it back')}
          action={undo}
          hidden={{ bulkEditId: id }}
        >
          <p>{say('Everything is as it was before. What somebody changed since is left alone, and named.')}</p>
        </ConfirmDialog>
      }
    />
  )
}
