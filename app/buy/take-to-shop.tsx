import { say } from '#language/say'
import { newId } from '#lib/db/new-id'
import type { BuyListRow } from '#lib/db/order/read-buy-list'
import type { Wanted } from '#lib/db/order/read-wants'
import type { Owner } from '#lib/db/owner/owners'
import { OwnerField } from '#trade/owner-field'
import { CheckField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import type { BuyChoices } from './filter'
import { keepListAction } from './lists/actions'

type TakeToShopProps = {
  choices: BuyChoices
  wanted: readonly Wanted[]
  list: readonly BuyListRow[]
  owners: readonly Owner[]
  ownerIds: readonly string[]
}

/** As many titles as a name takes. */
const namedTitles = 3

/** Keep what is to be bought as a list on the phone, ticked off in the shop. */
export function TakeToShop({ choices, wanted, list, owners, ownerIds }: TakeToShopProps) {
  const firm = list.filter(({ line }) => line.standing === 'buy')
  const perhaps = list.filter(({ line }) => line.putUps > 0 && line.standing !== 'buy')
  if (firm.length + perhaps.length === 0) return null
  const own = owners.filter(({ id }) => ownerIds.includes(id))
  const titles = wanted.map(({ title }) => title)
  const more = titles.length - namedTitles
  const named =
    more > 0 ? say('{titles} and {more} more', { titles: titles.slice(0, namedTitles).join(', '), more }) : listed(titles)
  return (
    <div className="no-print">
      <Section
        title={say('Take it to the shop')}
        note={say(
          '{firm, plural, one {# thread} other {# threads}} on a list to tick, with or without a network; what you tick goes into stock where it lives.',
          { firm: firm.length },
        )}
      >
        <Form
          label={say('Take it to the shop')}
          action={keepListAction}
          submit={say('Take it to the shop')}
          hidden={{
            listId: newId(),
            designs: choices.design.join(' '),
            lists: choices.list.join(' '),
            projects: choices.project.join(' '),
            ...(own.length === 1 && { ownerId: own[0]?.id ?? '' }),
          }}
          isInline
        >
          <TextField
            name="title"
            label={say('What it is called')}
            isRequired
            defaultValue={say('For {named}', { named }).slice(0, 200)}
            maxLength={200}
          />
          {own.length > 1 && <OwnerField label={say('For the stock of')} owners={own} ownerIds={ownerIds} />}
          {perhaps.length > 0 && (
            <CheckField
              name="withPerhaps"
              label={say(
                'Also the {perhaps, plural, one {# thread} other {# threads}} that need only be bought if what is at hand will not do',
                { perhaps: perhaps.length },
              )}
              defaultChecked={firm.length === 0}
            />
          )}
        </Form>
      </Section>
    </div>
  )
}
