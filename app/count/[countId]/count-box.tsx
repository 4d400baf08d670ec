'use client'

import { useContext } from 'react'
import { FormContext, fieldId } from '../../_ui/form-context'
import s from './count.module.css'

type CountBoxProps = {
  name: string
  counted: number | null
  /** Heard as the box's name. */
  label: string
}

/** A box for how many there are; empty until somebody counts. */
export function CountBox({ name, counted, label }: CountBoxProps) {
  const context = useContext(FormContext)
  return (
    <input
      id={context ? fieldId(context.formId, name) : undefined}
      className={s.box}
      name={name}
      type="text"
      inputMode="numeric"
      autoComplete="off"
      aria-label={label}
      aria-invalid={context?.errors[name] ? true : undefined}
      defaultValue={context?.values[name] ?? counted ?? ''}
    />
  )
}
