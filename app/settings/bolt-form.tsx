import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { Settings } from '#lib/settings/settings'
import { FieldRow, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { saveBoltAction } from './bolt-action'
import { boltFields } from './bolt-fields'

/** How the shop sells cloth, and what is lost in cutting it. */
export function BoltForm({ settings }: { settings: Settings }) {
  const { bolt, leastOffcutUm, cutGapUm, lengthUnit } = settings
  const figures = { ...bolt, leastOffcutUm, cutGapUm }
  const rows = [boltFields().slice(0, 2), boltFields().slice(2, 4), boltFields().slice(4)]
  return (
    <Section title={say('Cloth off the bolt')} id="bolt" note={say('What yardage and plans of cuts are reckoned with.')}>
      <Form action={saveBoltAction} submit={say('Keep these')} label={say('Cloth off the bolt')}>
        {rows.map((fields) => (
          <FieldRow key={fields[0]?.name}>
            {fields.map(({ name, label, hint }) => (
              <TextField
                key={name}
                name={name}
                label={label}
                width="short"
                hint={hint}
                defaultValue={formatClothLength(figures[name], lengthUnit)}
              />
            ))}
          </FieldRow>
        ))}
      </Form>
    </Section>
  )
}
