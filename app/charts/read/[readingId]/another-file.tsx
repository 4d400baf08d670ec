'use client'

import { useContext } from 'react'
import { say } from '#language/say'
import { CheckField } from '#ui/field'
import { FormContext } from '../../../_ui/form-context'

/** Asked only when the same file is kept with another chart already. */
export function AnotherFile() {
  const form = useContext(FormContext)
  if (!form?.errors.isAnotherFile && form?.values.isAnotherFile === undefined) return null
  return <CheckField name="isAnotherFile" label={say('It is meant for both: keep it here too')} />
}
