'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { ImportProgress } from '#lib/db/importing/import-service'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { stopAction } from '../../actions'

type Running = Extract<ImportProgress, { state: 'running' }>

type JobProgressProps = { jobId: string; first: Running; resultQuery: string; isSample: boolean }

const askAgainMs = 400

const stepWords: Record<Running['step'], string> = sayings({
  reading: 'Reading the file',
  deciding: 'Holding it against what is here',
  writing: 'Writing',
})

const figure = (count: number): string => numberText(count)

/** The bar of a running import; once it is over, its page says how it went. */
export function JobProgress({ jobId, first, resultQuery, isSample }: JobProgressProps) {
  const router = useRouter()
  const [running, setRunning] = useState(first)

  useEffect(() => {
    let isGone = false
    let timer: ReturnType<typeof setTimeout>
    const ask = async () => {
      const answer = await fetch(`/bring-in/jobs/${jobId}/progress`).catch(() => null)
      if (isGone) return
      const progress: ImportProgress | null = answer === null ? null : await answer.json().catch(() => null)
      if (isGone) return
      if (progress?.state === 'done') {
        router.replace(isSample ? '/bring-in/sample' : `/bring-in/results/${progress.importId}${resultQuery}`)
        // Owners and counts in the frame around the page are new as well.
        router.refresh()
        return
      }
      if (answer?.status === 404 || (progress !== null && progress.state !== 'running')) {
        router.refresh()
        return
      }
      if (progress !== null) setRunning(progress)
      timer = setTimeout(ask, askAgainMs)
    }
    timer = setTimeout(ask, askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
    }
  }, [jobId, resultQuery, isSample, router])

  const { step, done, of } = running
  return (
    <Progress
      label={isSample ? say('Bringing in the files of the sample') : stepWords[step]}
      done={done}
      of={of > 1 ? of : undefined}
      note={
        of > 1
          ? say('{figure} of {isSample}', { figure: figure(done), isSample: isSample ? say('{of} files', { of }) : figure(of) })
          : say('One moment')
      }
      stop={<Form action={stopAction} hidden={{ jobId }} submit={say('Stop')} submitKind="plain" />}
    />
  )
}
