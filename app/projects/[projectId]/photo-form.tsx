import { say } from '#language/say'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { setPhotoAction } from '../actions'

type PhotoFormProps = { edit: { projectId: string; version: string }; hasPhoto: boolean }

export function PhotoForm({ edit, hasPhoto }: PhotoFormProps) {
  return (
    <Section title={say('Photo')}>
      <Form
        action={setPhotoAction}
        hidden={edit}
        submit={hasPhoto ? say('Show this one instead') : say('Keep the photo')}
        submitKind="plain"
      >
        <FileField
          name="photo"
          label={hasPhoto ? say('Another photo') : say('Photo of it')}
          accept="image/jpeg,image/png,image/webp"
          hint={photoHint()}
        />
      </Form>
    </Section>
  )
}

export const photoHint = () => say('JPEG, PNG or WebP, up to 30 MB. Where and with what it was taken is not kept.')
