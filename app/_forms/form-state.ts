/** How a form stands, as its action answers it. */
export type FormState = {
  status: 'idle' | 'invalid' | 'refused' | 'done'
  /** A sentence for the person: why it was refused, or what was done. */
  message?: string
  /** A text to copy away once it is done, on a line of its own. */
  extract?: string
  /** By field name. */
  fieldErrors?: Record<string, string[] | undefined>
  /** What was sent, by field name, so that nothing typed is lost where the page is drawn anew. */
  values?: Record<string, string | undefined>
}

export type FormAction = (previous: FormState, form: FormData) => Promise<FormState>
