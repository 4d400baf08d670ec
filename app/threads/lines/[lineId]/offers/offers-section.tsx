import type { OfferRow } from '#lib/db/offer/queries'
import type { LinePage } from '#lib/db/thread/list-lines'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { counted, plural, threadLength } from '#words/amounts'
import { priceWords } from '#words/price'
import s from '../../../threads.module.css'
import { addOfferAction, removeOfferAction } from './actions'
import { OfferFields } from './offer-fields'

type OffersSectionProps = {
  line: LinePage
  offers: readonly OfferRow[]
  suppliers: readonly string[]
  currency: string
  unit: ThreadLengthUnit
}

/** "12 skeins of 8 m", "a spool of 50 m". */
function packWords(offer: OfferRow, line: LinePage, unit: ThreadLengthUnit): string {
  const word = offer.putUpWord ?? line.putUpWord
  const length = threadLength(offer.putUpStrandTenths, line.strands, unit)
  return offer.packPutUps === 1 ? `one ${word} of ${length}` : `pack of ${offer.packPutUps} ${plural(word)} of ${length}`
}

/** How a line is sold: the lengths, packs and shops that a list of what to buy chooses among. */
export function OffersSection({ line, offers, suppliers, currency, unit }: OffersSectionProps) {
  const own = `${counted(1, line.putUpWord)} of ${threadLength(line.putUpStrandTenths, line.strands, unit)}${
    line.priceMinor === null ? ', without a price' : ` for ${priceWords(line.priceMinor, currency)}`
  }`
  const columns: Column<OfferRow>[] = [
    {
      key: 'what',
      head: 'Sold as',
      phone: 'lead',
      cell: (offer) => (
        <>
          {packWords(offer, line, unit)}
          {offer.note && <span className={s.under}>{offer.note}</span>}
        </>
      ),
    },
    {
      key: 'thread',
      head: 'Which',
      phone: 'line',
      cell: ({ thread }) => (thread ? [thread.code, thread.name].filter(Boolean).join(' ') : 'every thread of the line'),
    },
    { key: 'supplier', head: 'By', phone: 'line', cell: ({ supplier }) => supplier ?? 'any shop' },
    {
      key: 'price',
      head: 'Costs',
      isNumeric: true,
      phone: 'side',
      cell: ({ priceMinor }) => priceWords(priceMinor, currency),
    },
    {
      key: 'rate',
      head: `A ${unit === 'm' ? 'metre' : 'yard'}`,
      isNumeric: true,
      phone: 'labelled',
      cell: ({ priceMinor, packPutUps, putUpStrandTenths }) =>
        priceWords((priceMinor * (unit === 'm' ? 10_000 : 9_144) * line.strands) / (packPutUps * putUpStrandTenths), currency),
    },
    {
      key: 'do',
      head: 'Do',
      headIsHidden: true,
      isAtEnd: true,
      isOffPaper: true,
      phone: 'wide',
      cell: (offer) => (
        <span className={s.acts}>
          <LinkButton kind="quiet" href={`/threads/lines/${line.id}/offers/${offer.offerId}`}>
            Change<span className="vh"> {packWords(offer, line, unit)}</span>
          </LinkButton>
          <ConfirmDialog
            opener={
              <>
                Remove<span className="vh"> {packWords(offer, line, unit)}</span>
              </>
            }
            openerKind="quiet"
            title={`No longer sold as ${packWords(offer, line, unit)}?`}
            confirm="Remove it"
            action={removeOfferAction}
            hidden={{ offerId: offer.offerId, version: String(offer.version) }}
          >
            <p>Lists of what to buy no longer reckon with it; those made already keep what they say.</p>
          </ConfirmDialog>
        </span>
      ),
    },
  ]
  return (
    <Section
      title="How it is sold"
      id="sold"
      note={`Beside ${own}. A list of what to buy takes the cheapest of these, or a mix of them${
        line.priceMinor === null ? ', once one alone has a price too: give it above, or here with a pack of 1' : ''
      }.`}
    >
      {offers.length === 0 ? (
        <p className="quiet">No other length, pack or shop is on record yet. Add those you can buy it as.</p>
      ) : (
        <Ledger caption="How the line is sold" columns={columns} rows={offers} rowKey={({ offerId }) => offerId} />
      )}
      <div className={s.gap}>
        <Unfold label="Add a way it is sold" isOpenAtFirst={offers.length === 0}>
          <Form
            label="A way it is sold"
            action={addOfferAction}
            submit="Put it down"
            submitKind="plain"
            hidden={{ lineId: line.id }}
            clearsWhenDone
          >
            <OfferFields {...{ line, suppliers, currency, unit }} />
          </Form>
        </Unfold>
      </div>
    </Section>
  )
}
