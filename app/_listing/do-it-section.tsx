import type { FormAction } from '#forms/form-state'
import { say } from '#language/say'
import { LinkButton } from '#ui/button'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'

type DoItProps = {
  what: string
  action: FormAction
  /** How many lines would change. */
  changes: number
  hidden: Record<string, string>
  /** Where it is left undone. */
  back: string
}

/** A change of many that was looked at: the way to do it, and the way out. */
export const DoItSection = ({ what, action, changes, hidden, back }: DoItProps) => (
  <Section title={say('Do it')} note={say('All in one, or not at all. It can be taken back afterwards.')}>
    <Form
      label={what}
      action={action}
      submit={say('Change {changes, plural, one {# line} other {# lines}}', { changes })}
      hidden={hidden}
      actions={
        <LinkButton kind="quiet" href={back}>
          {say('Leave it')}
        </LinkButton>
      }
    >
      <TextField
        name="who"
        label={say('Who does it')}
        hint={say('For the journal; may be left empty.')}
        width="half"
        maxLength={200}
      />
    </Form>
  </Section>
)
