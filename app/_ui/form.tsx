'use client'

import { type ReactNode, startTransition, useActionState, useEffect, useId, useRef, useState } from 'react'
import type { FormAction, FormState } from '#forms/form-state'
import { newOnceKey, onceField } from '#forms/once-field'
import { sendOnce } from '#forms/send-once'
import { say } from '#language/say'
import { Button } from './button'
import s from './form.module.css'
import { FormContext, fieldId } from './form-context'
import { Notice } from './notice'

const idle: FormState = { status: 'idle' }

const sentBy = new WeakMap<FormAction, FormAction>()

/**
 * An action as it is sent: always the same for the same action. A page that answers a form sent without scripts waits at each of its forms
 * to see whether it was the one, and begins that form anew: one that is bound anew each time would be waited for without end.
 */
function sentOf(action: FormAction): FormAction {
  const known = sentBy.get(action)
  if (known) return known
  const sent = sendOnce.bind(null, action)
  sentBy.set(action, sent)
  return sent
}

type FormProps = {
  action: FormAction
  children?: ReactNode
  /** Words on the button. */
  submit: ReactNode
  /** Words on the button while it is at work. */
  pending?: ReactNode
  submitKind?: 'first' | 'plain' | 'quiet'
  /** Further buttons or links beside the first. */
  actions?: ReactNode
  /** Sent along unseen. */
  hidden?: Record<string, string>
  /** One row: fields and button side by side. */
  isInline?: boolean
  /** Empties the fields once it is done, for adding one after another. */
  clearsWhenDone?: boolean
  onDone?: (state: FormState) => void
  label?: string
}

/**
 * A form that a server action answers. Errors come to stand at their fields, focus goes to the first of them (or to the refusal),
 * and what was typed or chosen stays. Works without scripts: the page is then drawn anew with the same errors and values.
 */
export function Form(props: FormProps) {
  const {
    action,
    children,
    submit,
    pending,
    submitKind = 'first',
    actions,
    hidden,
    isInline,
    clearsWhenDone,
    onDone,
    label,
  } = props
  const [state, formAction, isPending] = useActionState(sentOf(action), idle)
  const [onceKey, setOnceKey] = useState(newOnceKey)
  const formId = useId()
  const form = useRef<HTMLFormElement>(null)
  const notice = useRef<HTMLDivElement>(null)
  const answered = useRef(idle)

  useEffect(() => {
    if (state === answered.current) return
    answered.current = state
    if (state.status === 'invalid') {
      const first = form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')
      ;(first ?? notice.current)?.focus()
    }
    if (state.status === 'refused') notice.current?.focus()
    if (state.status === 'done') {
      // What is sent from now on is another deed.
      setOnceKey(newOnceKey())
      if (clearsWhenDone) {
        form.current?.reset()
        form.current?.querySelector<HTMLElement>('input:not([type="hidden"]), select, textarea')?.focus()
      }
      onDone?.(state)
    }
  }, [state, clearsWhenDone, onDone])

  const errors = state.status === 'invalid' ? (state.fieldErrors ?? {}) : {}
  const values = state.status === 'done' ? {} : (state.values ?? {})
  const isAnswered = state.values !== undefined && state.status !== 'done'
  return (
    <form
      ref={form}
      className={s.form}
      data-inline={isInline || undefined}
      action={formAction}
      aria-busy={isPending}
      aria-label={label}
      noValidate
      onSubmit={(event) => {
        // Sent by hand: sent by React, the form would be emptied by every answer, and with it the files chosen.
        event.preventDefault()
        if (isPending) return
        const fields = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter)
        startTransition(() => formAction(fields))
      }}
    >
      {/* The server's stands where the page came from it: the browser would have made another. */}
      <input key={onceKey} type="hidden" name={onceField} defaultValue={onceKey} suppressHydrationWarning />
      {Object.entries(hidden ?? {}).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <FormNotice state={state} formId={formId} notice={notice} />
      <FormContext value={{ formId, errors, values, isAnswered, isPending }}>
        {children && <div className={s.fields}>{children}</div>}
      </FormContext>
      <div className={s.acts}>
        <Button kind={submitKind} type="submit" aria-disabled={isPending || undefined}>
          {isPending ? (pending ?? say('One moment')) : submit}
        </Button>
        {actions}
      </div>
    </form>
  )
}

type FormNoticeProps = { state: FormState; formId: string; notice: React.RefObject<HTMLDivElement | null> }

function FormNotice({ state, formId, notice }: FormNoticeProps) {
  if (state.status === 'refused')
    return (
      <div className={s.notice}>
        <Notice kind="refusal" title={state.message} ref={notice} />
      </div>
    )
  if (state.status === 'done')
    return (
      <div className={s.notice} role="status">
        {state.message && (
          <Notice kind="done" title={state.message}>
            {state.extract && <code className={s.extract}>{state.extract}</code>}
          </Notice>
        )}
      </div>
    )
  if (state.status !== 'invalid') return null
  const wrong = Object.entries(state.fieldErrors ?? {}).filter(([, errors]) => errors && errors.length > 0)
  return (
    <div className={s.notice}>
      <Notice kind="refusal" title={state.message ?? describeWrong(wrong.length)} ref={notice}>
        <ul>
          {wrong.map(([name, errors]) => (
            <li key={name}>
              <a href={`#${fieldId(formId, name)}`}>{errors?.join(' ')}</a>
            </li>
          ))}
        </ul>
      </Notice>
    </div>
  )
}

const describeWrong = (count: number) =>
  count === 1 ? say('Not saved: one answer needs another look.') : say('Not saved: {count} answers need another look.', { count })
