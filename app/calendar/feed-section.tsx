import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { Owner } from '#lib/db/owner/owners'
import { findFeedToken } from '#lib/db/planning/days/calendar-feed'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { removeFeedAction, renewFeedAction } from './actions'
import s from './calendar.module.css'

/** A calendar of one's own kept up to date from here: the address to give it, and how to take that away. */
export async function FeedSection({ owners, here }: { owners: readonly Owner[]; here: string }) {
  const tokens = await Promise.all(owners.map(({ id }) => findFeedToken(id)))
  return (
    <Section
      title={say('In a calendar of your own')}
      id="feed"
      note={say(
        'due days, last days to begin, parts, loans due, times away and the occasions you work for; no people, prices or notes',
      )}
    >
      <p>
        {say(
          'The calendar file above is what stands here today. An address keeps a calendar up to date: give it to your calendar as one to follow. Whoever knows the address can read it, so treat it as a password.',
        )}
      </p>
      {owners.map((owner, at) => {
        const token = tokens[at]
        const whose = owners.length > 1 ? say(' of {name}', { name: owner.name }) : ''
        return token ? (
          <div key={owner.id}>
            <p className={s.address}>
              {sayParts('Address{whose}: <code>{here}/calendar/feed/{token}.ics</code>', {
                whose,
                code: (words) => <code>{words}</code>,
                here,
                token,
              })}
            </p>
            <ConfirmDialog
              opener={say('A new address{whose}', { whose })}
              title={say('Give it a new address?')}
              confirm={say('Give it a new one')}
              action={renewFeedAction}
              hidden={{ ownerId: owner.id }}
            >
              <p>{say('The address it has now is answered no more: every calendar that follows it needs the new one.')}</p>
            </ConfirmDialog>
            <Form
              action={removeFeedAction}
              hidden={{ ownerId: owner.id }}
              submit={say('Turn the address off{whose}', { whose })}
              submitKind="quiet"
              isInline
              label={say('Turn the address off{whose}', { whose })}
            />
          </div>
        ) : (
          <Form
            key={owner.id}
            action={renewFeedAction}
            hidden={{ ownerId: owner.id }}
            submit={say('Make an address{whose}', { whose })}
            submitKind="plain"
            isInline
            label={say('Make an address{whose}', { whose })}
          />
        )
      })}
    </Section>
  )
}
