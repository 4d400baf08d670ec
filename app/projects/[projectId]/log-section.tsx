import { dayText } from '#language/figures'
import { say } from '#language/say'
import type { PaceReading } from '#lib/db/planning/pace/read-pace'
import type { ProjectDetail } from '#lib/db/project/queries'
import { findRemovedWork, findTimer, listWork } from '#lib/db/work/queries'
import { calendarDay } from '#lib/quantity/day'
import { Word } from '#trade/word'
import { DateField, FieldRow, FileField, NumberField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { hoursWords } from '#words/hours'
import { moveProjectAction } from '../actions'
import { stitchWords } from '../stitched'
import { dropTimerAction, logWorkAction, startTimerAction } from '../work-actions'
import s from './log.module.css'
import { photoHint } from './photo-form'
import p from './project.module.css'
import { RunningFor } from './running-for'
import { WorkLedger } from './work-ledger'

const shownHere = 7

type LogSectionProps = { project: ProjectDetail; pace: PaceReading; now: Date }

/** What was done and when: a quick form for one thumb, the timer, and the latest of the log. */
export async function LogSection({ project, pace, now }: LogSectionProps) {
  const { id: projectId, status } = project
  const [{ entries, total }, removed, timer] = await Promise.all([
    listWork(projectId, { offset: 0, limit: shownHere }),
    findRemovedWork(projectId),
    findTimer(projectId),
  ])
  const today = calendarDay(now)
  const isFull = pace.left === 0 && pace.total !== null && (status === 'stitching' || status === 'resting')
  return (
    <Section
      title={<Word of="log">{say('Log')}</Word>}
      id="log"
      note={[stitchWords(project), hoursWords(project.hoursTenths)].filter(Boolean).join(', ')}
    >
      {isFull && (
        <Notice
          kind="caution"
          title={say(
            'All {stitches, plural, one {# stitch} other {# stitches}} are logged{isEstimated, select, yes {, as far as they can be estimated} other {}}. Is the last one made?',
            { stitches: pace.total?.stitches ?? 0, isEstimated: pace.total?.how === 'estimated' },
          )}
          actions={
            <Form
              action={moveProjectAction}
              hidden={{ projectId, version: String(project.version), to: 'stitched' }}
              submit={say('Yes, it is stitched')}
              submitKind="plain"
              isInline
            />
          }
        />
      )}
      {status !== 'abandoned' && <QuickLog project={project} timer={timer} now={now} today={today} />}
      <WorkLedger entries={entries} removed={removed} today={today} />
      {total > 0 && (
        <p className={p.sum}>
          <Link href={`/projects/${projectId}/log`}>
            {say('The whole log, {total, plural, one {# entry} other {# entries}}', { total })}
          </Link>
        </p>
      )}
      {(status === 'stitching' || status === 'stitched') && (
        <p className={`${p.sum} quiet`}>
          {say(
            'Before you put it by, take the needle out of the cloth: left in, it can rust and leave a mark, and someone may find its point.',
          )}
        </p>
      )}
    </Section>
  )
}

type QuickLogProps = { project: ProjectDetail; timer: Date | null; now: Date; today: string }

function QuickLog({ project, timer, now, today }: QuickLogProps) {
  const hidden = { projectId: project.id }
  const minutes = timer && Math.max(0, Math.floor((now.getTime() - timer.getTime()) / 60_000))
  return (
    <div className={s.quick}>
      <Form
        action={logWorkAction}
        hidden={timer ? { ...hidden, stopsTimer: 'on' } : hidden}
        submit={timer ? say('Stop and log it') : say('Add to the log')}
        submitKind="plain"
        clearsWhenDone
        label={say('Log what was done')}
      >
        {timer && minutes !== null && (
          <p className={s.timer} role="timer">
            {say('At it since {timer}:', { timer: dayText(timer, { hour: '2-digit', minute: '2-digit' }) })}{' '}
            <RunningFor since={timer.toISOString()} minutes={minutes} />
          </p>
        )}
        <FieldRow>
          <NumberField name="stitches" label={say('Stitches')} isWhole />
          <NumberField
            name="minutes"
            label={say('Hours')}
            unit="h"
            hint={timer ? say('Blank: as the timer says') : say('2½, 1:30 or 45 min')}
          />
        </FieldRow>
        <Unfold label={say('Per cent, another day, a note, a photo')}>
          <div className={s.more}>
            <FieldRow>
              <NumberField name="donePerMille" label={say('Done in all')} unit="%" hint={say('Instead of stitches')} />
              <DateField name="day" label={say('Day')} defaultValue={today} max={today} />
            </FieldRow>
            <TextArea name="note" label={say('Note')} rows={2} />
            <FileField name="photo" label={say('Photo')} accept="image/jpeg,image/png,image/webp" hint={photoHint()} />
          </div>
        </Unfold>
      </Form>
      {project.status !== 'finished' && (
        <div className={s.ways}>
          <Form
            action={logWorkAction}
            hidden={{ ...hidden, isTick: 'on' }}
            submit={say('Worked on it today')}
            submitKind="plain"
            isInline
            label={say('Worked on it today')}
          />
          {timer ? (
            <Form
              action={dropTimerAction}
              hidden={hidden}
              submit={say('Stop without logging')}
              submitKind="quiet"
              isInline
              label={say('Stop the timer without logging')}
            />
          ) : (
            <Form
              action={startTimerAction}
              hidden={hidden}
              submit={say('Start the timer')}
              submitKind="plain"
              isInline
              label={say('Timer')}
            />
          )}
        </div>
      )}
    </div>
  )
}
