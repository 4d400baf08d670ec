'use client'

import type { ReactNode } from 'react'

/** Sends the form in it as soon as a file is chosen: with the photo taken there is nothing more to press. */
export function SendWhenChosen({ children }: { children: ReactNode }) {
  return (
    <div
      onChange={(event) => {
        if (event.target instanceof HTMLInputElement && event.target.files?.length) event.target.form?.requestSubmit()
      }}
    >
      {children}
    </div>
  )
}
