import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { planMix } from '#lib/coverage/put-up-mix'
import type { BuyListRow } from '#lib/db/order/read-buy-list'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { Link } from '#ui/link'
import { packedWords } from '#words/buying'
import { priceWords } from '#words/price'
import s from './buy.module.css'

type SoldAsProps = { row: BuyListRow; unit: ThreadLengthUnit; currency: string | null }

/** Every way a thread is sold, and what is short of it bought that way alone; prices only where they are asked for. */
export function SoldAs({ row: { line, thread, mix, offers }, unit, currency }: SoldAsProps) {
  if (line.putUps === 0) return null
  const { id, strands, putUpWord, putUpStrandTenths } = thread.line
  const ways = offers.flatMap((offer) => {
    const alone = planMix({
      ...{ shortStrandTenths: line.shortStrandTenths, isOneLot: true, cutStrandTenths: line.cutStrandTenths },
      ...{ ownPutUpStrandTenths: putUpStrandTenths, offers: [offer] },
    })
    const [part] = alone?.parts ?? []
    if (!alone || !part) return []
    const { packPutUps, supplier } = offer
    const what = packedWords(
      {
        putUps: part.packs * packPutUps,
        packPutUps,
        putUpWord: offer.putUpWord ?? putUpWord,
        putUpStrandTenths: offer.putUpStrandTenths,
        strands,
      },
      unit,
    )
    const price =
      currency === null ? null : alone.priceMinor === null ? say('no price known') : priceWords(alone.priceMinor, currency)
    return [
      {
        key: offer.offerId ?? '',
        said: [supplier === null ? what : say('{what} from {supplier}', { what, supplier }), price].filter(Boolean).join(', '),
      },
    ]
  })
  return (
    <div className={s.sold}>
      {ways.length > 1 && (
        <>
          <p>
            <b>{mix && mix.parts.length > 1 ? say('One way alone:') : say('Ways it is sold:')}</b>
          </p>
          <ul>
            {ways.map(({ key, said }) => (
              <li key={key}>{said}</li>
            ))}
          </ul>
        </>
      )}
      <p>
        {sayParts('<link>How it is sold</link> · <link2>Which length is cheaper?</link2>', {
          link: (words) => <Link href={`/threads/lines/${id}#sold`}>{words}</Link>,
          link2: (words) => <Link href={`/buy/compare?thread=${thread.id}`}>{words}</Link>,
        })}
      </p>
    </div>
  )
}
