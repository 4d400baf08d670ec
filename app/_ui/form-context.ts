'use client'

import { createContext } from 'react'

export type FormFieldsState = {
  formId: string
  /** By field name: what is wrong with it. */
  errors: Record<string, readonly string[] | undefined>
  /** By field name: what was sent the last time. */
  values: Record<string, string | undefined>
  /** An answer has come back: a tick that was not sent was taken off. */
  isAnswered: boolean
  /** It is being sent, or waited for. */
  isPending: boolean
}

/** What the form around a field knows of it; null for a field in a form that asks nothing of the server. */
export const FormContext = createContext<FormFieldsState | null>(null)

/** The id of the field `name` in the form `formId`; links from the notice lead to it. */
export const fieldId = (formId: string, name: string) => `${formId}${name}`
