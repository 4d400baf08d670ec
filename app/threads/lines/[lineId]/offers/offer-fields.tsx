import { say } from '#language/say'
import type { OfferRow } from '#lib/db/offer/queries'
import { formatPrice } from '#lib/quantity/money'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import type { ThreadLine } from '#lib/thread/thread'
import { FieldRow, NumberField, TextField } from '#ui/field'
import { singular } from '#words/amounts'
import { exactLength } from '../../../amounts'

type OfferFieldsProps = {
  line: ThreadLine
  offer?: OfferRow
  suppliers: readonly string[]
  currency: string
  unit: ThreadLengthUnit
}

/** One way a line is sold: by whom, how long, how many in a pack, for how much. */
export function OfferFields({ line, offer, suppliers, currency, unit }: OfferFieldsProps) {
  const length = (offer?.putUpStrandTenths ?? line.putUpStrandTenths) / line.strands
  return (
    <>
      <FieldRow>
        <TextField
          name="supplier"
          label={say('Sold by')}
          defaultValue={offer?.supplier ?? ''}
          suggestions={suppliers}
          maxLength={200}
        />
        <TextField
          name="thread"
          label={say('Only this thread')}
          defaultValue={offer?.thread ? offer.thread.code : ''}
          hint={say('Its code, where not all of the line is sold so.')}
          maxLength={300}
        />
      </FieldRow>
      <FieldRow>
        <TextField
          name="length"
          label={say('Length of one')}
          isRequired
          defaultValue={exactLength(length, unit)}
          hint={say('As sold, all strands together: 8 m or 5 yd.')}
        />
        <TextField
          name="putUpWord"
          label={say('One is called a')}
          defaultValue={offer?.putUpWord ? singular(offer.putUpWord) : ''}
          placeholder={singular(line.putUpWord)}
          suggestions={['skein', 'hank', 'spool', 'card', 'ball'].map(singular)}
        />
      </FieldRow>
      <FieldRow>
        <NumberField
          name="packPutUps"
          label={say('In one pack')}
          isWhole
          defaultValue={offer?.packPutUps ?? 1}
          hint={say('1 when sold singly.')}
        />
        <NumberField
          name="price"
          label={say('One pack costs')}
          isRequired
          defaultValue={offer ? formatPrice(offer.priceMinor, null) : ''}
          unit={currency}
        />
      </FieldRow>
      <TextField name="note" label={say('Note')} defaultValue={offer?.note ?? ''} maxLength={1_000} />
    </>
  )
}
