'use client'

import { useContext } from 'react'
import { FormContext } from '../../../../_ui/form-context'
import s from './bags.module.css'

type MarkChoiceProps = { name: string; status: string; stands: string | null; words: string }

/** One of there, short and wrong. What was sent with a form that was refused stays chosen. */
export function MarkChoice({ name, status, stands, words }: MarkChoiceProps) {
  const chosen = useContext(FormContext)?.values[name] ?? stands
  return (
    <label className={s.choice} data-fault={status === 'there' ? undefined : true}>
      <input key={chosen ?? ''} type="radio" name={name} value={status} defaultChecked={chosen === status} />
      <span>{words}</span>
    </label>
  )
}
