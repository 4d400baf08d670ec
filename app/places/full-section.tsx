import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import { listFuller, type PlaceFill, percentOf } from '#lib/place/capacity'
import { FillBar } from '#trade/fill-bar'
import { PlaceLabel } from '#trade/place-label'
import { Button, LinkButton } from '#ui/button'
import { NumberField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import s from './full-section.module.css'
import { describeFillDetail, kindWord, shareWords } from './words'

type FullSectionProps = {
  places: readonly PlaceRecord[]
  fills: ReadonlyMap<string, PlaceFill>
  percent: number
}

/** The places that are fuller than a share, the fullest first, and how many cannot say. */
export function FullSection({ places, fills, percent }: FullSectionProps) {
  const fuller = listFuller(places, fills, percent)
  const words = shareWords(percent)
  return (
    <Section
      id="full"
      title={say('Over {words}', { words })}
      note={
        fills.size > 0 &&
        say('{fuller} of the {fills, plural, one {# place} other {# places}} that say what they take; everybody’s goods count.', {
          fuller: fuller.length,
          fills: fills.size,
        })
      }
      actions={<LinkButton href="/places">{say('All places')}</LinkButton>}
    >
      <form className={s.share} action="/places#full" aria-label={say('How full')}>
        <NumberField name="full" label={say('Fuller than')} unit="%" defaultValue={percent} isWhole />
        <Button type="submit">{say('Show')}</Button>
      </form>
      {fills.size === 0 ? (
        <p>
          {say(
            'No place says yet what it takes. On a place’s page, “Change it” takes a number of compartments, or how many skeins, cards or loops go in.',
          )}
        </p>
      ) : fuller.length === 0 ? (
        <p>{sayParts('No place is over {words}. There is room to grow.', { words })}</p>
      ) : (
        <Ledger
          caption={say('Places over {words}', { words })}
          rows={fuller}
          rowKey={({ place }) => place.id}
          columns={[
            {
              key: 'place',
              head: say('Place'),
              cell: ({ place }) => (
                <PlaceLabel label={place.label} href={`/places/${place.id}`} note={place.name ?? kindWord(place.kind)} />
              ),
              phone: 'lead',
            },
            { key: 'detail', head: say('What is in it'), cell: ({ fill }) => describeFillDetail(fill), phone: 'line' },
            {
              key: 'fill',
              head: say('How full'),
              cell: ({ fill }) => <FillBar percent={percentOf(fill.fill)} keepTo={percent} />,
              width: '18rem',
              isAtEnd: true,
              phone: 'wide',
            },
          ]}
        />
      )}
    </Section>
  )
}
