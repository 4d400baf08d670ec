'use client'

import { useContext } from 'react'
import { say } from '#language/say'
import { CheckField } from '#ui/field'
import { FormContext } from '../_ui/form-context'

/** Asked only when a chart of the title is held already. */
export function HeldAlready() {
  const form = useContext(FormContext)
  if (!form?.errors.isAnother && form?.values.isAnother === undefined) return null
  return <CheckField name="isAnother" label={say('It is another one: add it')} />
}
