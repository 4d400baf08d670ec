'use client'

import { type ReactNode, useRef, useState } from 'react'
import { say } from '#language/say'
import { Notice } from './notice'

const megabyte = 1024 * 1024

/** Stops files too large to be sent at all, before minutes are spent on sending them. */
export function UploadGuard({ mostMegabytes, children }: { mostMegabytes: number; children: ReactNode }) {
  const [size, setSize] = useState<number | null>(null)
  const notice = useRef<HTMLDivElement>(null)
  return (
    <div
      onSubmitCapture={(event) => {
        const files = new FormData(event.target as HTMLFormElement).getAll('files')
        const bytes = files.reduce((sum, file) => sum + (file instanceof File ? file.size : 0), 0)
        const isTooLarge = bytes > mostMegabytes * megabyte
        setSize(isTooLarge ? bytes : null)
        if (!isTooLarge) return
        event.preventDefault()
        event.stopPropagation()
        requestAnimationFrame(() => notice.current?.focus())
      }}
    >
      {size !== null && (
        <Notice
          kind="refusal"
          ref={notice}
          title={say(
            'That is {ceil} MB; up to {mostMegabytes} MB can be sent at once. Choose fewer files, or part the file in two.',
            { ceil: Math.ceil(size / megabyte), mostMegabytes },
          )}
        >
          {say('Nothing was changed.')}
        </Notice>
      )}
      {children}
    </div>
  )
}
