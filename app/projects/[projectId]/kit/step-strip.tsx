import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type KitProgress, kitSteps, nextStep, stateOfStep } from '#lib/project/kit/steps'
import s from './kit.module.css'
import { stepStateWords, stepWords } from './kit-words'

/** The way of the kits from reserved to sealed: a bag that fills, its word, and how many are so far. */
export function StepStrip({ progress }: { progress: KitProgress }) {
  const next = nextStep(progress)
  return (
    <ol className={s.steps} aria-label={say('How far the kits are')}>
      {kitSteps.map((step) => (
        <li key={step} aria-current={step === next ? 'step' : undefined}>
          <StepMark fraction={progress.done[step] / progress.copies} />
          <span className={s.stepWord}>{stepWords[step]}</span>
          <span className={s.stepCount}>
            {sayParts('{done} of {copies}{stepState}', {
              done: progress.done[step],
              copies: progress.copies,
              stepState: <span className="vh">, {stepStateWords[stateOfStep(progress, step)]}</span>,
            })}
          </span>
        </li>
      ))}
    </ol>
  )
}

/** An empty bag, one partly full, or a full one tied at the neck. */
function StepMark({ fraction }: { fraction: number }) {
  const foot = 18
  const height = 11 * Math.min(1, fraction)
  return (
    <svg viewBox="0 0 20 20" width="22" height="22" aria-hidden="true">
      <path d="M5 6.5h10l2 11.5H3z" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" strokeLinejoin="round" />
      {fraction > 0 && <path d={`M4.3 ${foot - height}h11.4V${foot - 1.2}H4.3z`} fill="currentColor" />}
      {fraction >= 1 && <path d="M7 6 5.5 2.5h9L13 6" fill="none" stroke="currentColor" strokeWidth="var(--pen-line)" />}
    </svg>
  )
}
