'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import type { CutPlan } from '#lib/cloth/cut-plan'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
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

const askAgainMs = 500

/** A search under way: the best plan so far drawn anew as it gets better; once it is over, its page says how it went. */
export function JobProgress({ jobId, first, timeLimitSeconds, shown }: JobProgressProps) {
  const router = useRouter()
  const [{ plan, seconds }, setAnswer] = useState(first)

  useEffect(() => {
    let isGone = false
    let timer: ReturnType<typeof setTimeout>
    const ask = async () => {
      const response = await fetch(`/cloth/cut/jobs/${jobId}/progress`).catch(() => null)
      const answer: Answer | null = response === null ? null : await response.json().catch(() => null)
      if (isGone) return
      if (response?.status === 404 || answer?.isRunning === false) {
        router.refresh()
        return
      }
      if (answer) setAnswer(answer)
      timer = setTimeout(ask, askAgainMs)
    }
    timer = setTimeout(ask, askAgainMs)
    return () => {
      isGone = true
      clearTimeout(timer)
    }
  }, [jobId, router])

  const copies = shown.asked.wishes.reduce((sum, wish) => sum + wish.copies, 0)
  return (
    <>
      <Progress
        label="Searching for the best way to cut it"
        done={Math.min(seconds, timeLimitSeconds)}
        of={timeLimitSeconds}
        note={
          <>
            {plan && plan.layouts.length > 0 ? foundWords(plan, copies) : 'Nothing found yet.'}{' '}
            {plan && plan.layouts.length > 0 && boundWords(plan, shown.asked.objective)}
          </>
        }
        stop={<Form action={stopAction} hidden={{ jobId }} submit="Stop, and take the best so far" submitKind="plain" />}
      />
      {plan && plan.layouts.length > 0 && (
        <div className={s.soFar}>
          <h2>The best so far</h2>
          <PlanDrawings {...shown} plan={plan} />
        </div>
      )}
    </>
  )
}
