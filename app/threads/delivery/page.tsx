import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect } from '#ui/form-strip'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { DeliveryDesk } from './delivery-desk'

export const generateMetadata = (): Metadata => ({ title: say('A delivery') })

const querySchema = z.object({ owner: z.string().max(64).optional().catch(undefined) })

type DeliveryPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function DeliveryPage({ searchParams }: DeliveryPageProps) {
  const [{ owner: asked }, viewer] = await Promise.all([searchParams.then((query) => querySchema.parse(query)), getViewer()])
  const owner =
    viewer.owners.find(({ id }) => id === asked) ??
    (viewer.ownerIds.length === 1 ? viewer.owners.find(({ id }) => id === viewer.ownerIds[0]) : undefined)
  return (
    <>
      <PageHead
        title={say('A delivery')}
        crumbs={[{ label: say('Threads'), href: '/threads' }, { label: say('A delivery') }]}
        byline={
          owner
            ? say('Received for {name}, put-up by put-up at the drawers.', { name: owner.name })
            : say('Received put-up by put-up at the drawers.')
        }
      />
      {viewer.owners.length > 1 && (
        <FormStrip
          action="/threads/delivery"
          label={say('Whose delivery')}
          summary={owner ? say('For {name}', { name: owner.name }) : say('Choose whose it is')}
        >
          <StripSelect
            name="owner"
            label={say('For')}
            value={owner?.id ?? ''}
            any={say('choose')}
            options={viewer.owners.map(({ id, name }) => ({ value: id, label: name }))}
          />
        </FormStrip>
      )}
      {owner ? (
        <DeliveryDesk key={owner.id} ownerId={owner.id} unit={viewer.settings.threadUnit} />
      ) : viewer.owners.length === 0 ? (
        <Empty
          title={say('Nobody to receive for yet')}
          actions={<LinkButton href="/settings">{say('Name an owner')}</LinkButton>}
        >
          {say('Stock is always somebody’s: name yourself or the shop first.')}
        </Empty>
      ) : (
        <Empty title={say('Whose delivery is it?')}>
          {say('Two owners’ goods are never mixed: choose above for whom this is received.')}
        </Empty>
      )}
    </>
  )
}
