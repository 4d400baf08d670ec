'use client'

import { useContext } from 'react'
import { say } from '#language/say'
import { CheckField } from '#ui/field'
import { FormContext } from '../_ui/form-context'

/** Asked only when the same file is kept with something else already. */
export function KeptElsewhere() {
  const form = useContext(FormContext)
  if (!form?.errors.isAnother && form?.values.isAnother === undefined) return null
  return <CheckField name="isAnother" label={say('It is meant for both: keep it here too')} />
}
