'use client'

import { useRouter } from 'next/navigation'
import { useRef, useState } from 'react'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import { Button, ButtonRow } from '#ui/button'
import { FileField } from '#ui/field'
import { Notice } from '#ui/notice'
import { Progress } from '#ui/progress'
import s from './archive.module.css'

type Sending = { done: number; of: number }

const figure = (bytes: number): string => numberText(bytes / 1e6, { maximumFractionDigits: 1 })

/** Choose an archive and send it, however large; then its page says what is in it. Nothing is brought back yet. */
export function GiveArchive() {
  const router = useRouter()
  const request = useRef<XMLHttpRequest | null>(null)
  const notice = useRef<HTMLDivElement>(null)
  const [sending, setSending] = useState<Sending | null>(null)
  const [refusal, setRefusal] = useState<string | null>(null)

  const refuse = (sentence: string) => {
    setSending(null)
    setRefusal(sentence)
    requestAnimationFrame(() => notice.current?.focus())
  }

  // By XMLHttpRequest: fetch does not tell how much of a file is sent.
  const send = (file: File) => {
    const sent = new XMLHttpRequest()
    request.current = sent
    setRefusal(null)
    setSending({ done: 0, of: file.size })
    sent.upload.onprogress = ({ loaded }) => setSending({ done: loaded, of: file.size })
    sent.onerror = () => refuse(say('The file did not arrive. Is Chart Larder still running? Try again.'))
    sent.onabort = () => setSending(null)
    sent.onload = () => {
      const answer: { givenId?: string; message?: string } = parse(sent.responseText)
      if (answer.givenId) router.push(`/archive/given/${answer.givenId}`)
      else refuse(answer.message ?? say('The file was not taken. Try again.'))
    }
    sent.open('POST', '/archive/given')
    sent.setRequestHeader('content-type', 'application/zip')
    sent.send(file)
  }

  if (sending)
    return (
      <Progress
        label={say('Sending the archive')}
        done={sending.done}
        of={Math.max(1, sending.of)}
        note={say('{figure} of {figure2} MB', { figure: figure(sending.done), figure2: figure(sending.of) })}
        stop={<Button onClick={() => request.current?.abort()}>{say('Stop')}</Button>}
      />
    )
  return (
    <form
      className={s.give}
      aria-label={say('Bring an archive back')}
      onSubmit={(event) => {
        event.preventDefault()
        const file = new FormData(event.currentTarget).get('file')
        if (file instanceof File && file.name !== '') send(file)
        else refuse(say('Choose an archive first: a ZIP that was taken out here.'))
      }}
    >
      {refusal !== null && (
        <Notice kind="refusal" title={refusal} ref={notice}>
          {say('Nothing was changed.')}
        </Notice>
      )}
      <FileField
        name="file"
        label={say('Archive')}
        hint={say('A ZIP, as it was downloaded. You see first what is in it.')}
        accept=".zip,application/zip"
      />
      <ButtonRow>
        <Button type="submit">{say('Look at it')}</Button>
      </ButtonRow>
    </form>
  )
}

function parse(text: string): { givenId?: string; message?: string } {
  try {
    return JSON.parse(text)
  } catch {
    return {}
  }
}
