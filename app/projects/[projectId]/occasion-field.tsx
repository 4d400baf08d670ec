import { say } from '#language/say'
import type { Occasion } from '#lib/planning/days/occasions'
import { SelectField } from '#ui/field'
import { occasionOptions } from '#words/occasion'

type OccasionFieldProps = { occasionKey: string | null; occasions: readonly Occasion[] }

/** What a project is to be ready for. One that is not known any more stays until another is chosen. */
export const OccasionField = ({ occasionKey, occasions }: OccasionFieldProps) => (
  <SelectField
    name="occasionKey"
    label={say('Ready for')}
    none={say('No occasion')}
    defaultValue={occasionKey ?? ''}
    options={[
      ...occasionOptions(occasions),
      ...(occasionKey !== null && !occasions.some(({ key }) => key === occasionKey)
        ? [{ value: occasionKey, label: say('one no longer kept') }]
        : []),
    ]}
    hint={say('Sets the day it is due to the next one.')}
    width="half"
  />
)
