'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import type { ChoiceProgress } from '#lib/db/planning/choose-designs'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { stopChoiceAction } from '../../actions'

type JobProgressProps = { jobId: string; first: ChoiceProgress; timeLimitSeconds: number }

const askAgainMs = 500

const stepWords: Record<ChoiceProgress['step'], string> = {
  bounding: 'Looking how much could be had at most',
  choosing: 'Choosing',
  cutting: 'Trying how it is cut',
}

/** The bar of a choice that is being made; once it is made, its page says so. */
export function JobProgress({ jobId, first, timeLimitSeconds }: JobProgressProps) {
  const router = useRouter()
  const [progress, setProgress] = useState(first)
  const [seconds, setSeconds] = useState(0)

  useEffect(() => {
    let isGone = false
    let timer: ReturnType<typeof setTimeout>
    const begun = performance.now()
    const ask = async () => {
      const answer = await fetch(`/cloth/choose/jobs/${jobId}/progress`).catch(() => null)
      const said: { state: string; progress?: ChoiceProgress } | null =
        answer === null ? null : await answer.json().catch(() => null)
      if (isGone) return
      if (answer?.status === 404 || (said !== null && said.state !== 'running')) {
        router.refresh()
        return
      }
      if (said?.progress) setProgress(said.progress)
      setSeconds(Math.floor((performance.now() - begun) / 1_000))
      timer = setTimeout(ask, askAgainMs)
    }
    timer = setTimeout(ask, askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
    }
  }, [jobId, router])

  const { step, value, bound } = progress
  return (
    <Progress
      label={stepWords[step]}
      done={Math.min(seconds, timeLimitSeconds)}
      of={timeLimitSeconds}
      note={value === 0 ? 'One moment' : `Worth ${value} so far, ${bound} at most`}
      stop={<Form action={stopChoiceAction} hidden={{ jobId }} submit="Take the best so far" submitKind="plain" />}
    />
  )
}
