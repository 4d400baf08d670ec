'use client'

import { useRouter } from 'next/navigation'
import { useRef, useState } from 'react'
import { say } from '#language/say'
import { Button } from '#ui/button'
import { FileField } from '#ui/field'
import { Notice } from '#ui/notice'
import { Progress } from '#ui/progress'
import { bytesWords } from '#words/backup'
import s from './backups.module.css'

type Sending = { done: number; of: number }

/** Sends a backup as it lies on this device, however large it is; it can be stopped on its way. */
export function BringInBackup() {
  const router = useRouter()
  const form = useRef<HTMLFormElement>(null)
  const request = useRef<XMLHttpRequest | null>(null)
  const [sending, setSending] = useState<Sending | null>(null)
  const [refusal, setRefusal] = useState<string | null>(null)

  const end = (message: string | null) => {
    request.current = null
    setSending(null)
    setRefusal(message)
  }
  const send = () => {
    const file = form.current?.querySelector<HTMLInputElement>('input[type="file"]')?.files?.[0]
    if (!file) return setRefusal(say('Choose a file first.'))
    const asked = new XMLHttpRequest()
    request.current = asked
    setRefusal(null)
    setSending({ done: 0, of: file.size })
    asked.upload.onprogress = ({ loaded }) => setSending({ done: loaded, of: file.size })
    asked.onload = () => {
      const said = answerOf(asked.responseText)
      if (asked.status !== 200 || !said.name) return end(said.message ?? say('It was not taken.'))
      end(null)
      router.push(`/settings/backups/${said.name}${said.jobId ? `?job=${said.jobId}` : ''}`)
    }
    asked.onerror = () => end(say('It did not arrive. Look whether Chart Larder is running, and send it again.'))
    asked.onabort = () => end(null)
    asked.open('POST', '/settings/backups/brought-in')
    asked.setRequestHeader('content-type', 'application/zip')
    asked.send(file)
  }

  if (sending)
    return (
      <Progress
        label={say('Sending the backup')}
        done={sending.done}
        of={sending.of || undefined}
        note={say('{bytes} of {bytes2}', { bytes: bytesWords(sending.done), bytes2: bytesWords(sending.of) })}
        stop={<Button onClick={() => request.current?.abort()}>{say('Stop')}</Button>}
      />
    )
  return (
    <form
      className={s.send}
      ref={form}
      onSubmit={(event) => {
        event.preventDefault()
        send()
      }}
    >
      {refusal && <Notice kind="refusal" title={refusal} />}
      <FileField name="file" label={say('A backup, as it was downloaded or copied')} accept=".zip,application/zip" />
      <Button type="submit" kind="plain">
        {say('Bring it in')}
      </Button>
    </form>
  )
}

function answerOf(text: string): { name?: string; jobId?: string; message?: string } {
  try {
    return JSON.parse(text)
  } catch {
    return {}
  }
}
