import { say } from '#language/say'
import type { PlaceOption } from '#lib/db/place/queries'
import { isPeople } from '#lib/place/place'
import { DateField, FieldRow, NumberField, TextField } from '#ui/field'

/** A list one picks from while typing stays quick up to about this long. */
const mostOffered = 300

export const peopleLabels = (places: readonly PlaceOption[]): string[] =>
  places
    .filter(({ kind }) => isPeople(kind))
    .slice(0, mostOffered)
    .map(({ label }) => label)

type TermsFieldsProps = { places: readonly PlaceOption[]; today: string; who: string; isDueNeeded: boolean; reasonHint: string }

/** With whom, what for, from when, and till when: by weeks or by a day. */
export const TermsFields = ({ places, today, who, isDueNeeded, reasonHint }: TermsFieldsProps) => (
  <>
    <FieldRow>
      <TextField
        name="withLabel"
        label={who}
        hint={say('A name; a new one is added to the people')}
        suggestions={peopleLabels(places)}
        maxLength={100}
        width="half"
        isRequired
      />
      <TextField name="reason" label={say('What for')} hint={reasonHint} maxLength={300} width="half" isRequired />
    </FieldRow>
    <FieldRow>
      <DateField name="fromOn" label={say('From')} defaultValue={today} isRequired />
      <NumberField
        name="weeks"
        label={say('For how many weeks')}
        unit={say('weeks')}
        hint={isDueNeeded ? say('This, or the day') : say('This, the day, or neither')}
        isWhole
      />
      <DateField name="dueOn" label={say('Or till the day')} hint={say('It is due on that day')} />
    </FieldRow>
  </>
)
