import { formatDate } from '#language/day'
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
        title="Pace and planning"
        id="planning"
        note={
          <>
            The <Link href="/projects/rotation">rotation</Link> has its own page.
          </>
        }
      >
        <Form action={savePlanningAction} submit="Keep these" submitKind="plain" label="Pace and planning">
          <FieldRow>
            <SelectField
              name="firstWeekday"
              label="A week begins on"
              defaultValue={String(firstWeekday)}
              options={weekdayOptions}
              width="half"
            />
            <NumberField
              name="untouchedDays"
              label="Long untouched after"
              unit="days"
              isWhole
              defaultValue={untouchedDays}
              hint="Then a work begun is raised under Projects."
            />
          </FieldRow>
          <FieldRow>
            <NumberField
              name="finishingWeeks"
              label="Finishing takes"
              unit="weeks"
              isWhole
              defaultValue={finishingWeeks}
              hint="Where a project does not say."
            />
            <NumberField
              name="bufferWeeks"
              label="Kept in hand"
              unit="weeks"
              isWhole
              defaultValue={bufferWeeks}
              hint="Before the day it is due."
            />
          </FieldRow>
        </Form>
      </Section>
      <Section title="Times away" id="away" note="Days without stitching: they push a finish later, and a start earlier.">
        {away.map((time) => (
          <div key={`${time.id} ${time.version}`} className={s.away}>
            <TimeAwayForm time={time} hasSeveralOwners={owners.length > 1} />
            <Form
              action={removeTimeAwayAction}
              hidden={{ id: time.id }}
              submit="Take it out"
              submitKind="quiet"
              isInline
              label={`Take out the time from ${formatDate(time.fromOn)}`}
            />
          </div>
        ))}
        <Form
          action={saveTimeAwayAction}
          submit="Add a time away"
          submitKind="plain"
          isInline
          clearsWhenDone
          label="Add a time away"
          hidden={owners.length === 1 ? { ownerId: owners[0]?.id ?? '' } : {}}
        >
          <DateField name="fromOn" label="First day" />
          <DateField name="toOn" label="Last day" />
          <TextField name="what" label="What for" maxLength={120} width="half" />
          {owners.length > 1 && <OwnerField label="Who" owners={owners} ownerIds={ownerIds} />}
        </Form>
      </Section>
    </>
  )
}

const TimeAwayForm = ({ time, hasSeveralOwners }: { time: TimeAway; hasSeveralOwners: boolean }) => (
  <Form
    action={saveTimeAwayAction}
    hidden={{ id: time.id, version: String(time.version) }}
    submit="Change"
    submitKind="plain"
    isInline
    label={`Time away from ${formatDate(time.fromOn)}`}
  >
    <DateField name="fromOn" label="First day" defaultValue={time.fromOn} />
    <DateField name="toOn" label="Last day" defaultValue={time.toOn} />
    <TextField
      name="what"
      label={hasSeveralOwners ? `What for (${time.owner.name})` : 'What for'}
      defaultValue={time.what ?? ''}
      maxLength={120}
      width="half"
    />
  </Form>
)
