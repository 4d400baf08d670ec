import { say } from '#language/say'
import { findRemovedPlace } from '#lib/db/place/restore-place'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { restorePlaceAction } from './actions'

/** What was just taken off the map, with the way back; nothing when it stands again. */
export async function RemovedNotice({ placeId }: { placeId: string | undefined }) {
  const place = placeId === undefined ? null : await findRemovedPlace(placeId)
  if (!place) return null
  return (
    <Notice
      kind="done"
      title={say('{label} is off the map.', { label: place.label })}
      actions={
        <Form
          action={restorePlaceAction}
          hidden={{ id: place.id, version: String(place.version) }}
          submit={say('Put it back')}
          submitKind="plain"
          isInline
        />
      }
    />
  )
}
