'use client'

import { say, sayings } from '#language/say'
import type { ChoiceProgress } from '#lib/db/planning/together/choose-designs'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { stopChoiceAction } from './actions'
import { addressOf, type ChoiceScreen } from './screens'

type Running = { seconds: number; progress: ChoiceProgress }
type Answer = { isRunning: false } | ({ isRunning: true } & Running)

type JobProgressProps = { jobId: string; screen: ChoiceScreen; first: Running; timeLimitSeconds: number }

const stepWords: Record<ChoiceProgress['step'], string> = sayings({
  pins: 'Trying whether those that must be in go together',
  bounding: 'Looking how much could be had at most',
  choosing: 'Choosing',
  cutting: 'Trying how it is cut',
  buying: 'Looking for the same with less bought',
  ladder: 'Looking what a little more would bring',
})

/** The bar of a choice that is being made; once it is made, its page says so. */
export function JobProgress({ jobId, screen, first, timeLimitSeconds }: JobProgressProps) {
  const answer = usePolling<Answer>(`${addressOf[screen]}/jobs/${jobId}/progress`, ({ isRunning }) => !isRunning)
  const { seconds, progress } = answer?.isRunning ? answer : first
  const { step, value, bound } = progress
  return (
    <Progress
      label={stepWords[step]}
      done={Math.min(seconds, timeLimitSeconds)}
      of={timeLimitSeconds}
      note={value === 0 ? say('One moment') : say('Worth {value} so far, {bound} at most', { value, bound })}
      stop={<Form action={stopChoiceAction} hidden={{ jobId }} submit={say('Take the best so far')} submitKind="plain" />}
    />
  )
}
