'use client'

import { say } from '#language/say'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { boundWords, foundWords } from '#words/cut-plan'
import { stopAction } from '../../actions'
import s from '../../cut.module.css'
import { PlanDrawings, type ShownPlan } from '../../plan-view'

type Answer = { isRunning: boolean; seconds: number; plan: CutPlan | null }

type JobProgressProps = {
  jobId: string
  first: Omit<Answer, 'isRunning'>
  timeLimitSeconds: number
  /** What the plan's wishes and pieces are called. */
  shown: Omit<ShownPlan, 'plan'>
}

/** A search under way: the best plan so far drawn anew as it gets better; once it is over, its page says how it went. */
export function JobProgress({ jobId, first, timeLimitSeconds, shown }: JobProgressProps) {
  const answer = usePolling<Answer>(`/cloth/cut/jobs/${jobId}/progress`, ({ isRunning }) => !isRunning)
  const { plan, seconds } = answer ?? first
  const copies = shown.asked.wishes.reduce((sum, wish) => sum + wish.copies, 0)
  return (
    <>
      <Progress
        label={say('Searching for the best way to cut it')}
        done={Math.min(seconds, timeLimitSeconds)}
        of={timeLimitSeconds}
        note={
          <>
            {plan && plan.layouts.length > 0 ? foundWords(plan, copies) : say('Nothing found yet.')}{' '}
            {plan && plan.layouts.length > 0 && boundWords(plan, shown.asked.objective)}
          </>
        }
        stop={<Form action={stopAction} hidden={{ jobId }} submit={say('Stop, and take the best so far')} submitKind="plain" />}
      />
      {plan && plan.layouts.length > 0 && (
        <div className={s.soFar}>
          <h2>{say('The best so far')}</h2>
          <PlanDrawings {...shown} plan={plan} />
        </div>
      )}
    </>
  )
}
