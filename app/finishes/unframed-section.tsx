import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { Unframed } from '#lib/db/finish/list-unframed'
import { isPeople } from '#lib/place/place'
import { HoopWord } from '#trade/hoop'
import { PlaceLabel } from '#trade/place-label'
import { WorkName } from '#trade/work-name'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { sentWords } from '#words/finish'
import { givenName } from '#words/given'

/** What is stitched and not framed: here still, or with a framer or finisher, since when and at what price. */
export function UnframedSection({ unframed, currency }: { unframed: readonly Unframed[]; currency: string }) {
  return (
    <Section title={say('Stitched, not framed yet')} id="unframed" note={counted(unframed.length, 'piece')}>
      <Ledger
        caption={say('Stitched, not framed yet')}
        rows={unframed}
        rowKey={({ id }) => id}
        rowHref={({ id }) => `/projects/${id}`}
        columns={[
          {
            key: 'what',
            head: say('What'),
            phone: 'lead',
            cell: ({ title, quantity }) => <WorkName title={title} quantity={quantity} />,
          },
          {
            key: 'state',
            head: say('State'),
            phone: 'line',
            cell: (piece) => <HoopWord status={piece.status} {...whereWords(piece, currency)} />,
          },
          { key: 'finishing', head: say('Finishing'), phone: 'line', cell: ({ finishing }) => finishing && givenName(finishing) },
          {
            key: 'where',
            head: say('Where'),
            isAtEnd: true,
            phone: 'side',
            cell: ({ place }) => place && <PlaceLabel label={place.label} />,
          },
        ]}
      />
    </Section>
  )
}

function whereWords({ sent, place, lastWorkedOn }: Unframed, currency: string): { word: string; note?: string } {
  if (sent)
    return {
      word: say('With {label}, {kind}', { label: sent.place.label, kind: givenName(sent.place.kind) }),
      note: sentWords(sent, currency),
    }
  if (place && isPeople(place.kind))
    return {
      word: say('With {label}, {kind}', { label: place.label, kind: givenName(place.kind) }),
      note: say('nobody wrote down since when, or at what price'),
    }
  return {
    word: say('Stitched, not sent anywhere'),
    ...(lastWorkedOn && { note: say('last stitched {lastWorkedOn}', { lastWorkedOn: formatDate(lastWorkedOn) }) }),
  }
}
