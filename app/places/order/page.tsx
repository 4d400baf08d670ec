import type { Metadata } from 'next'
import { z } from 'zod'
import { say } from '#language/say'
import { listPlaces } from '#lib/db/place/queries'
import { placePath } from '#lib/place/place-tree'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { placeTitle } from '../words'
import { orderByLabelAction, orderPlacesAction } from './actions'
import { OrderList } from './order-list'

export const generateMetadata = (): Metadata => ({ title: say('Order of the walk') })

const searchSchema = z.object({ inside: z.string().max(64).catch('') })

export default async function OrderPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { inside } = searchSchema.parse(await searchParams)
  const places = await listPlaces()
  const parent = places.find(({ id }) => id === inside) ?? null
  const standing = places.filter(({ parentId }) => parentId === (parent?.id ?? null))
  const path = parent ? placePath(parent, new Map(places.map((each) => [each.id, each]))) : []
  const back = parent ? `/places/${parent.id}` : '/places'
  const isByHand = standing.some(({ walkOrder }) => walkOrder !== null)
  return (
    <>
      <PageHead
        title={
          parent
            ? say('Order in {placeTitle}', { placeTitle: placeTitle(parent) })
            : say('Order of the rooms and what stands in none')
        }
        crumbs={[
          { label: say('Places'), href: '/places' },
          ...path.map(({ id, label }) => ({ label, href: `/places/${id}` })),
          { label: say('Order') },
        ]}
        byline={say('One walks past them in this order: lists to pull and to put back go by it.')}
      />
      {standing.length < 2 ? (
        <Empty title={say('Nothing to put in order')} actions={<LinkButton href={back}>{say('Back')}</LinkButton>}>
          {say('An order is for two places or more that stand in the same one.')}
        </Empty>
      ) : (
        <>
          <Form
            action={orderPlacesAction}
            hidden={{ parentId: parent?.id ?? '' }}
            submit={say('Keep this order')}
            actions={<LinkButton href={back}>{say('Leave it')}</LinkButton>}
          >
            <OrderList places={standing.map(({ id, label, name }) => ({ id, label, name }))} />
          </Form>
          {isByHand && (
            <Section title={say('By their labels')} note={say('Numbers read as numbers: 9 before 10.')}>
              <Form
                action={orderByLabelAction}
                hidden={{ parentId: parent?.id ?? '' }}
                submit={say('Order them by their labels')}
                submitKind="plain"
              />
            </Section>
          )}
        </>
      )}
    </>
  )
}
