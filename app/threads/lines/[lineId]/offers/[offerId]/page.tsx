import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findOffer, listSuppliers } from '#lib/db/offer/queries'
import { findLine } from '#lib/db/thread/list-lines'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { lineTitle } from '#words/thread'
import { changeOfferAction } from '../actions'
import { OfferFields } from '../offer-fields'

export const generateMetadata = (): Metadata => ({ title: say('A way it is sold') })

type PageProps = { params: Promise<{ lineId: string; offerId: string }> }

export default async function OfferPage({ params }: PageProps) {
  const { lineId, offerId } = await params
  const [line, offer, suppliers, { settings }] = await Promise.all([
    findLine(lineId),
    findOffer(offerId),
    listSuppliers(),
    getViewer(),
  ])
  if (!line || offer?.lineId !== lineId) notFound()
  const linePage = `/threads/lines/${line.id}`
  return (
    <>
      <PageHead
        title={say('A way it is sold')}
        crumbs={[
          { label: say('Threads'), href: '/threads' },
          { label: lineTitle(line), href: linePage },
          { label: say('Change') },
        ]}
        byline={say('Lists made already keep what they say; the next ones reckon with what stands here.')}
      />
      <Form
        label={say('A way it is sold')}
        action={changeOfferAction}
        submit={say('Keep the changes')}
        hidden={{
          ...{ lineId: line.id, offerId: offer.offerId, version: String(offer.version) },
          lengthBefore: String(offer.putUpStrandTenths),
        }}
        actions={
          <LinkButton kind="quiet" href={`${linePage}#sold`}>
            {say('Leave it')}
          </LinkButton>
        }
      >
        <OfferFields {...{ line, offer, suppliers }} currency={settings.currency} unit={settings.threadUnit} />
      </Form>
    </>
  )
}
