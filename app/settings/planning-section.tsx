import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listTimesAway, type TimeAway } from '#lib/db/planning/days/times-away'
import { OwnerField } from '#trade/owner-field'
import { DateField, FieldRow, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import type { Viewer } from '#viewer/viewer'
import { weekdayOptions } from '#words/work'
import { removeTimeAwayAction, savePlanningAction, saveTimeAwayAction } from './planning-actions'
import s from './settings.module.css'

/** How work is planned, and when nobody stitches. */
export async function PlanningSection({ viewer: { settings, owners, ownerIds } }: { viewer: Viewer }) {
  const { firstWeekday, untouchedDays, finishingWeeks, bufferWeeks } = settings.planning
  const away = await listTimesAway(owners.map(({ id }) => id))
  return (
    <>
      <Section
        title={say('Pace and planning')}
        id="planning"
        note={sayParts('The <link>rotation</link> has its own page.', {
          link: (words) => <Link href="/projects/rotation">{words}</Link>,
        })}
      >
        <Form action={savePlanningAction} submit={say('Keep these')} submitKind="plain" label={say('Pace and planning')}>
          <FieldRow>
            <SelectField
              name="firstWeekday"
              label={say('A week begins on')}
              defaultValue={String(firstWeekday)}
              options={weekdayOptions()}
              width="half"
            />
            <NumberField
              name="untouchedDays"
              label={say('Long untouched after')}
              unit={say('days')}
              isWhole
              defaultValue={untouchedDays}
              hint={say('Then a work begun is raised under Projects.')}
            />
          </FieldRow>
          <FieldRow>
            <NumberField
              name="finishingWeeks"
              label={say('Finishing takes')}
              unit={say('weeks')}
              isWhole
              defaultValue={finishingWeeks}
              hint={say('Where a project does not say.')}
            />
            <NumberField
              name="bufferWeeks"
              label={say('Kept in hand')}
              unit={say('weeks')}
              isWhole
              defaultValue={bufferWeeks}
              hint={say('Before the day it is due.')}
            />
          </FieldRow>
        </Form>
      </Section>
      <Section
        title={say('Times away')}
        id="away"
        note={say('Days without stitching: they push a finish later, and a start earlier.')}
      >
        {away.map((time) => (
          <div key={`${time.id} ${time.version}`} className={s.away}>
            <TimeAwayForm time={time} hasSeveralOwners={owners.length > 1} />
            <Form
              action={removeTimeAwayAction}
              hidden={{ id: time.id }}
              submit={say('Take it out')}
              submitKind="quiet"
              isInline
              label={say('Take out the time from {fromOn}', { fromOn: formatDate(time.fromOn) })}
            />
          </div>
        ))}
        <Form
          action={saveTimeAwayAction}
          submit={say('Add a time away')}
          submitKind="plain"
          isInline
          clearsWhenDone
          label={say('Add a time away')}
          hidden={owners.length === 1 ? { ownerId: owners[0]?.id ?? '' } : {}}
        >
          <DateField name="fromOn" label={say('First day')} />
          <DateField name="toOn" label={say('Last day')} />
          <TextField name="what" label={say('What for')} maxLength={120} width="half" />
          {owners.length > 1 && <OwnerField label={say('Who')} owners={owners} ownerIds={ownerIds} />}
        </Form>
      </Section>
    </>
  )
}

const TimeAwayForm = ({ time, hasSeveralOwners }: { time: TimeAway; hasSeveralOwners: boolean }) => (
  <Form
    action={saveTimeAwayAction}
    hidden={{ id: time.id, version: String(time.version) }}
    submit={say('Change')}
    submitKind="plain"
    isInline
    label={say('Time away from {fromOn}', { fromOn: formatDate(time.fromOn) })}
  >
    <DateField name="fromOn" label={say('First day')} defaultValue={time.fromOn} />
    <DateField name="toOn" label={say('Last day')} defaultValue={time.toOn} />
    <TextField
      name="what"
      label={hasSeveralOwners ? say('What for ({name})', { name: time.owner.name }) : say('What for')}
      defaultValue={time.what ?? ''}
      maxLength={120}
      width="half"
    />
  </Form>
)
