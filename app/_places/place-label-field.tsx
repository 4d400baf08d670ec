import { say } from '#language/say'
import { ScanInto } from '#trade/scan-into'
import { TextField } from '#ui/field'

type PlaceLabelFieldProps = { label: string; placeLabels: readonly string[]; maxLength: number }

/** Where something is to go, by a label that is typed, chosen or scanned. */
export const PlaceLabelField = ({ label, placeLabels, maxLength }: PlaceLabelFieldProps) => (
  <>
    <TextField
      name="placeLabel"
      label={label}
      hint={say('The label of a place; a new one is made')}
      suggestions={placeLabels}
      maxLength={maxLength}
      width="half"
      isRequired
    />
    <ScanInto name="placeLabel" />
  </>
)
