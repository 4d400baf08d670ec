'use client'

import { type ReactNode, useCallback, useId, useRef } from 'react'
import type { FormAction } from '#forms/form-state'
import { say } from '#language/say'
import { Button, type ButtonKind } from './button'
import s from './confirm-dialog.module.css'
import { Form } from './form'

type ConfirmDialogProps = {
  /** Words on the button that opens it. */
  opener: ReactNode
  openerKind?: ButtonKind
  title: ReactNode
  /** What will happen, and whether it can be undone; fields too, if it must ask something. */
  children?: ReactNode
  confirm: ReactNode
  cancel?: ReactNode
  action: FormAction
  hidden?: Record<string, string>
}

/** Asks before it acts. A refusal stands inside it; done, it closes. */
export function ConfirmDialog(props: ConfirmDialogProps) {
  const { opener, openerKind, title, children, confirm, cancel = say('Leave it'), action, hidden } = props
  const dialog = useRef<HTMLDialogElement>(null)
  const titleId = useId()
  const close = useCallback(() => dialog.current?.close(), [])
  return (
    <>
      <Button kind={openerKind} onClick={() => dialog.current?.showModal()} aria-haspopup="dialog">
        {opener}
      </Button>
      <dialog ref={dialog} className={s.dialog} aria-labelledby={titleId}>
        <h2 id={titleId}>{title}</h2>
        <Form action={action} submit={confirm} hidden={hidden} onDone={close} actions={<Button onClick={close}>{cancel}</Button>}>
          {children}
        </Form>
      </dialog>
    </>
  )
}
