import type { Metadata } from 'next'
import { say } from '#language/say'
import { countByRuler } from '#lib/cloth/ruler-count'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { addClothAction } from '../actions'
import { PieceFields } from '../piece-fields'
import { readingsSchema } from '../schema'

export const generateMetadata = (): Metadata => ({ title: say('Add a piece of cloth') })

type PageProps = { searchParams: Promise<Record<string, unknown>> }

/** With readings along a ruler in its address, the card begins with the count they make. */
export default async function NewClothPage({ searchParams }: PageProps) {
  const asked = await searchParams
  const [{ settings, owners, ownerIds }, places] = await Promise.all([getViewer(), listPlaceOptions()])
  const read = readingsSchema.safeParse(asked)
  const ruled = read.success ? read.data : null
  const result = ruled && countByRuler(ruled, { weave: ruled.weave, unit: ruled.ruler })
  const counted =
    ruled && result?.ok ? { ends: result.value.ends.count, picks: result.value.picks.count, weave: ruled.weave } : undefined
  return (
    <>
      <PageHead
        title={say('Add a piece of cloth')}
        crumbs={[{ label: say('Cloth'), href: '/cloth' }, { label: say('Add a piece') }]}
        actions={!counted && <LinkButton href="/cloth/count">{say('Its count is not known')}</LinkButton>}
      />
      {owners.length === 0 ? (
        <Empty title={say('Whose cloth is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <Form
          action={addClothAction}
          submit={say('Add the piece')}
          hidden={counted && { across: String(asked.across), up: String(asked.up), ruler: String(asked.ruler) }}
          actions={<LinkButton href="/cloth">{say('Leave it')}</LinkButton>}
        >
          <SelectField
            name="ownerId"
            label={say('Whose it is')}
            options={owners.map(({ id, name }) => ({ value: id, label: name }))}
            defaultValue={ownerIds[0]}
            width="half"
          />
          <TextField
            name="placeLabel"
            label={say('Where it lives')}
            hint={say('The label of a place; a new one is made')}
            suggestions={places.map(({ label }) => label)}
            maxLength={60}
            width="half"
          />
          <PieceFields unit={settings.lengthUnit} today={calendarDay(new Date())} counted={counted} />
        </Form>
      )}
    </>
  )
}
