import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { type RotationMember, readRotation } from '#lib/db/planning/pace/rotation'
import { listProjectsUnderWay } from '#lib/db/project/queries'
import { hasWeekday } from '#lib/planning/pace/rotation'
import { isInRotation } from '#lib/project/life-cycle'
import { calendarDay } from '#lib/quantity/day'
import { HoopWord } from '#trade/hoop'
import { Empty } from '#ui/empty'
import { CheckField, ChoiceField, FieldRow, NumberField, SelectField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { weekdayOptions, weekdaysWords } from '#words/work'
import { NextTurnLine } from '../next-up'
import s from '../projects.module.css'
import { ruleWords } from '../rotation-words'
import {
  joinRotationAction,
  leaveRotationAction,
  moveInRotationAction,
  saveRotationRuleAction,
  setWeekdaysAction,
} from './actions'

export const generateMetadata = (): Metadata => ({ title: say('Rotation') })

/** More than anybody has under the needle. */
const mostOffered = 300

/** Which projects are taken in turn, by which rule, and what is next. */
export default async function RotationPage() {
  const { ownerIds, ownerName, settings } = await getViewer()
  const [rotation, { rows }] = await Promise.all([
    readRotation(ownerIds, calendarDay(new Date())),
    listProjectsUnderWay({ ownerIds, page: 1, perPage: mostOffered }),
  ])
  const { members } = rotation
  const { rotation: rule } = settings.planning
  const offered = rows.filter(({ id, status }) => isInRotation(status) && !members.some(({ projectId }) => projectId === id))
  return (
    <>
      <PageHead
        title={say('Rotation')}
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: say('Rotation') }]}
        note={members.length > 0 && counted(members.length, 'project')}
        byline={
          ownerName && say('Projects of {ownerName} that are taken in turn. What is next follows from the log.', { ownerName })
        }
      />
      {members.length > 0 && (
        <p className={s.now} role="status">
          <NextTurnLine rotation={rotation} />
        </p>
      )}
      <Section title={say('In turn')} note={ruleWords(rule)}>
        {members.length === 0 ? (
          <Empty title={say('No rotation yet')}>
            {say(
              'Choose the projects you want to take in turn. After so many days, hours or stitches on one, the next has its turn.',
            )}
          </Empty>
        ) : (
          <Ledger
            caption={say('The rotation, in its order')}
            rows={members}
            rowKey={({ projectId, weekdays }) => `${projectId} ${weekdays}`}
            columns={[
              { key: 'state', head: say('State'), cell: ({ status }) => <HoopWord status={status} />, phone: 'side' },
              {
                key: 'what',
                head: say('What'),
                cell: ({ title, takesPart, weekdays }) => (
                  <>
                    {title}
                    {rule.by === 'weekday' && (
                      <>
                        <br />
                        <small className="quiet">{weekdaysWords(weekdays) || say('no day of the week yet')}</small>
                      </>
                    )}
                    {!takesPart && (
                      <>
                        <br />
                        <small className="quiet">{say('passed over: it is not there to be stitched')}</small>
                      </>
                    )}
                  </>
                ),
                phone: 'lead',
              },
              {
                key: 'last',
                head: say('Last worked on'),
                cell: ({ lastWorkedOn }) =>
                  lastWorkedOn ? <span className="nb">{formatDate(lastWorkedOn)}</span> : say('not yet'),
                phone: 'labelled',
              },
              {
                key: 'acts',
                head: say('Order'),
                headIsHidden: true,
                cell: (member) => <Acts member={member} members={members} />,
                isOffPaper: true,
                phone: 'line',
              },
            ]}
          />
        )}
        {rule.by === 'weekday' && members.length > 0 && (
          <div className={s.set}>
            {members.map((member) => (
              <Weekdays key={`${member.projectId} ${member.weekdays}`} member={member} />
            ))}
          </div>
        )}
        {offered.length > 0 && (
          <div className={s.set}>
            <Form
              action={joinRotationAction}
              submit={say('Take it in turn')}
              submitKind="plain"
              isInline
              label={say('Add to the rotation')}
            >
              <SelectField
                name="projectId"
                label={say('Add a project')}
                options={offered.map(({ id, design }) => ({ value: id, label: design.title }))}
              />
            </Form>
          </div>
        )}
      </Section>
      <Section title={say('The rule')} id="rule">
        <Form action={saveRotationRuleAction} submit={say('Keep the rule')} submitKind="plain">
          <ChoiceField
            name="by"
            label={say('It is another’s turn')}
            defaultValue={rule.by}
            options={[
              { value: 'days', label: say('after so many days on which it was stitched') },
              { value: 'hours', label: say('after so many hours') },
              { value: 'stitches', label: say('after so many stitches') },
              { value: 'weekday', label: say('by the day of the week') },
            ]}
          />
          <FieldRow>
            <NumberField name="days" label={say('Days')} isWhole defaultValue={rule.days} />
            <NumberField name="hours" label={say('Hours')} isWhole defaultValue={rule.hours} />
            <NumberField name="stitches" label={say('Stitches')} isWhole defaultValue={rule.stitches} />
          </FieldRow>
        </Form>
      </Section>
    </>
  )
}

function Acts({ member, members }: { member: RotationMember; members: readonly RotationMember[] }) {
  const { projectId, title } = member
  const at = members.findIndex((one) => one.projectId === projectId)
  const step = (to: 'earlier' | 'later', words: string) => (
    <Form
      action={moveInRotationAction}
      hidden={{ projectId, to }}
      submit={words}
      submitKind="quiet"
      isInline
      label={`${title}: ${midSentence(words)}`}
    />
  )
  return (
    <span className={s.turns}>
      {at > 0 && step('earlier', say('Earlier'))}
      {at < members.length - 1 && step('later', say('Later'))}
      <Form
        action={leaveRotationAction}
        hidden={{ projectId }}
        submit={say('Take it out')}
        submitKind="quiet"
        isInline
        label={say('Take {title} out of the rotation', { title })}
      />
    </span>
  )
}

const Weekdays = ({ member: { projectId, title, weekdays } }: { member: RotationMember }) => (
  <Unfold label={say('Days of {title}', { title })}>
    <Form
      action={setWeekdaysAction}
      hidden={{ projectId }}
      submit={say('Keep its days')}
      submitKind="plain"
      label={say('Days of {title}', { title })}
    >
      {weekdayOptions().map(({ value, label }) => (
        <CheckField key={value} name={`day${value}`} label={label} defaultChecked={hasWeekday(weekdays, Number(value))} />
      ))}
    </Form>
  </Unfold>
)
