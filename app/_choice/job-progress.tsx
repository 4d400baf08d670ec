'use client'

import type { ChoiceProgress } from '#lib/db/planning/choose-designs'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { stopChoiceAction } from '../../actions'

type Running = { seconds: number; progress: ChoiceProgress }
type Answer = { isRunning: false } | ({ isRunning: true } & Running)

type JobProgressProps = { jobId: string; first: Running; timeLimitSeconds: number }

const stepWords: Record<ChoiceProgress['step'], string> = {
  bounding: 'Looking how much could be had at most',
  choosing: 'Choosing',
  cutting: 'Trying how it is cut',
}

/** The bar of a choice that is being made; once it is made, its page says so. */
export function JobProgress({ jobId, first, timeLimitSeconds }: JobProgressProps) {
  const answer = usePolling<Answer>(`/cloth/choose/jobs/${jobId}/progress`, ({ isRunning }) => !isRunning)
  const { seconds, progress } = answer?.isRunning ? answer : first
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
