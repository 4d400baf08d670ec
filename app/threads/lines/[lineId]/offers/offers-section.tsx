import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { OfferRow } from '#lib/db/offer/queries'
import type { LinePage } from '#lib/db/thread/list-lines'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { counted, plural, singular, threadLength } from '#words/amounts'
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
  return offer.packPutUps === 1
    ? say('one {word} of {length}', { word: singular(word), length })
    : say('pack of {packPutUps} {plural} of {length}', { packPutUps: offer.packPutUps, plural: plural(word), length })
}

/** How a line is sold: the lengths, packs and shops that a list of what to buy chooses among. */
export function OffersSection({ line, offers, suppliers, currency, unit }: OffersSectionProps) {
  const own = say('{counted} of {threadLength}{rest}', {
    counted: counted(1, line.putUpWord),
    threadLength: threadLength(line.putUpStrandTenths, line.strands, unit),
    rest:
      line.priceMinor === null ? say(', without a price') : say(' for {price}', { price: priceWords(line.priceMinor, currency) }),
  })
  const columns: Column<OfferRow>[] = [
    {
      key: 'what',
      head: say('Sold as'),
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
      head: say('Which'),
      phone: 'line',
      cell: ({ thread }) => (thread ? [thread.code, thread.name].filter(Boolean).join(' ') : say('every thread of the line')),
    },
    { key: 'supplier', head: say('By'), phone: 'line', cell: ({ supplier }) => supplier ?? say('any shop') },
    {
      key: 'price',
      head: say('Costs'),
      isNumeric: true,
      phone: 'side',
      cell: ({ priceMinor }) => priceWords(priceMinor, currency),
    },
    {
      key: 'rate',
      head: say('A {isM, select, yes {metre} other {yard}}', { isM: unit === 'm' }),
      isNumeric: true,
      phone: 'labelled',
      cell: ({ priceMinor, packPutUps, putUpStrandTenths }) =>
        priceWords((priceMinor * (unit === 'm' ? 10_000 : 9_144) * line.strands) / (packPutUps * putUpStrandTenths), currency),
    },
    {
      key: 'do',
      head: say('Do'),
      headIsHidden: true,
      isAtEnd: true,
      isOffPaper: true,
      phone: 'wide',
      cell: (offer) => (
        <span className={s.acts}>
          <LinkButton kind="quiet" href={`/threads/lines/${line.id}/offers/${offer.offerId}`}>
            {sayParts('Change{pack}', { pack: <span className="vh"> {packWords(offer, line, unit)}</span> })}
          </LinkButton>
          <ConfirmDialog
            opener={sayParts('Remove{pack}', { pack: <span className="vh"> {packWords(offer, line, unit)}</span> })}
            openerKind="quiet"
            title={say('No longer sold as {pack}?', { pack: packWords(offer, line, unit) })}
            confirm={say('Remove it')}
            action={removeOfferAction}
            hidden={{ offerId: offer.offerId, version: String(offer.version) }}
          >
            <p>{say('Lists of what to buy no longer reckon with it; those made already keep what they say.')}</p>
          </ConfirmDialog>
        </span>
      ),
    },
  ]
  return (
    <Section
      title={say('How it is sold')}
      id="sold"
      note={say(
        'Beside {own}. A list of what to buy takes the cheapest of these, or a mix of them{priceMinorCase, select, yes {, once one alone has a price too: give it above, or here with a pack of 1} other {}}.',
        { own, priceMinorCase: line.priceMinor === null },
      )}
    >
      {offers.length === 0 ? (
        <p className="quiet">{say('No other length, pack or shop is on record yet. Add those you can buy it as.')}</p>
      ) : (
        <Ledger caption={say('How the line is sold')} columns={columns} rows={offers} rowKey={({ offerId }) => offerId} />
      )}
      <div className={s.gap}>
        <Unfold label={say('Add a way it is sold')} isOpenAtFirst={offers.length === 0}>
          <Form
            label={say('A way it is sold')}
            action={addOfferAction}
            submit={say('Put it down')}
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
