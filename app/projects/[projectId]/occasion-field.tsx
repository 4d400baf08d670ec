import type { Occasion } from '#lib/planning/days/occasions'
import { SelectField } from '#ui/field'
import { occasionOptions } from '#words/occasion'

type OccasionFieldProps = { occasionKey: string | null; occasions: readonly Occasion[] }

/** What a project is to be ready for. One that is not known any more stays until another is chosen. */
export const OccasionField = ({ occasionKey, occasions }: OccasionFieldProps) => (
  <SelectField
    name="occasionKey"
    label="Ready for"
    none="No occasion"
    defaultValue={occasionKey ?? ''}
    options={[
      ...occasionOptions(occasions),
      ...(occasionKey !== null && !occasions.some(({ key }) => key === occasionKey)
        ? [{ value: occasionKey, label: 'one no longer kept' }]
        : []),
    ]}
    hint="Sets the day it is due to the next one."
    width="half"
  />
)
