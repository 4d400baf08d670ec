import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { SwapChoice } from '#lib/db/project/swap-choices'
import { FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { threadName } from '#words/thread'
import { ThreadCell } from '../../_things/thread-cell'
import { setSwapAction } from '../actions'
import s from './project.module.css'

type SwapsSectionProps = { choices: readonly SwapChoice[]; edit: { projectId: string; version: string }; canChange: boolean }

/** Which colours of the key are worked in another thread, and the choice among accepted stand-ins. Nothing when there is no choice. */
export function SwapsSection({ choices, edit, canChange }: SwapsSectionProps) {
  const shown = choices.filter(({ worked, standIns }) => worked !== null || (canChange && standIns.length > 0))
  if (shown.length === 0) return null
  const swappedCount = shown.filter(({ worked }) => worked !== null).length
  return (
    <Section
      title={say('Colours worked in another thread')}
      id="swaps"
      note={swappedCount === 0 ? say('none: all as charted') : counted(swappedCount, 'colour')}
    >
      <ul className={s.swaps}>
        {shown.map((choice) => {
          const { charted, worked, reason } = choice
          return (
            <li key={charted.id}>
              <div className={s.swap}>
                {worked ? (
                  <>
                    <ThreadCell thread={worked} />
                    <span className="quiet">
                      {sayParts('instead of {threadName}{rest}', {
                        threadName: threadName(charted),
                        rest: reason && `: ${reason}`,
                      })}
                    </span>
                  </>
                ) : (
                  <>
                    <ThreadCell thread={charted} />
                    <span className="quiet">{say('as charted')}</span>
                  </>
                )}
              </div>
              {canChange && (
                <Unfold label={say('Work {threadName} in …', { threadName: threadName(charted) })}>
                  <Form
                    action={setSwapAction}
                    hidden={{ ...edit, threadId: charted.id }}
                    submit={say('Work it so')}
                    submitKind="plain"
                    label={say('What {threadName} is worked in', { threadName: threadName(charted) })}
                  >
                    <FieldRow>
                      <SelectField
                        name="standInThreadId"
                        label={say('{threadName} is worked in', { threadName: threadName(charted) })}
                        defaultValue={worked?.id ?? ''}
                        options={optionsOf(choice)}
                      />
                      <TextField name="reason" label={say('Why')} defaultValue={reason ?? ''} maxLength={300} />
                    </FieldRow>
                  </Form>
                </Unfold>
              )}
            </li>
          )
        })}
      </ul>
      <p className={`${s.sum} quiet`}>{say('Daylight decides: lay the threads on the cloth before you stitch with them.')}</p>
    </Section>
  )
}

function optionsOf({ charted, worked, standIns }: SwapChoice) {
  const isListed = worked === null || standIns.some(({ thread }) => thread.id === worked.id)
  return [
    { value: '', label: say('{threadName}, as charted', { threadName: threadName(charted) }) },
    ...(isListed ? [] : [{ value: worked.id, label: threadName(worked) }]),
    ...standIns.map(({ thread, source }) => ({
      value: thread.id,
      label: source ? `${threadName(thread)} (${source})` : threadName(thread),
    })),
  ]
}
