import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { listTravelling } from '#lib/db/project/list-travelling'
import { type LengthUnit, parseClothLength, parseClothSize } from '#lib/quantity/cloth-length'
import type { Settings } from '#lib/settings/settings'
import { PlaceLabel } from '#trade/place-label'
import { WorkName } from '#trade/work-name'
import { Button } from '#ui/button'
import { FieldRow, TextField } from '#ui/field'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { Unfold } from '#ui/unfold'
import { roughSize } from '#words/cloth-size'
import s from './projects.module.css'

type TravellingSectionProps = {
  /** As typed; blank asks nothing. */
  within: string
  ownerIds: readonly string[]
  settings: Settings
}

/** What is kitted and small enough to take along, with its bag. */
export async function TravellingSection({ within, ownerIds, settings }: TravellingSectionProps) {
  const { lengthUnit } = settings
  if (within === '')
    return (
      <div className={s.travelling}>
        <Unfold label={say('A small kitted piece to take along')}>
          <Ask within="" unit={lengthUnit} />
        </Unfold>
      </div>
    )
  const side = parseClothLength(within, lengthUnit)
  const most = parseClothSize(within, lengthUnit) ?? (side ? { widthUm: side, heightUm: side } : null)
  const found = most && (await listTravelling({ ownerIds, most }))
  return (
    <Section title={say('A small kitted piece to take along')} id="travelling">
      <Ask within={within} unit={lengthUnit} />
      {!found || !most ? (
        <Notice
          kind="refusal"
          title={say('That is no size. Give one side as 6 in or 15 cm, or both as 6 x 8 in or 15 x 20 cm.')}
        />
      ) : (
        <>
          <p>
            {found.works.length === 0
              ? say('Nothing that is kitted comes out within {most}.', { most: formatClothSize(most, lengthUnit) })
              : say('{works, plural, one {# kitted piece} other {# kitted pieces}} within {most}, whichever way round.', {
                  works: found.works.length,
                  most: formatClothSize(most, lengthUnit),
                })}
            {found.unknown > 0 &&
              say(' Of {unknown, plural, one {# kitted project} other {# kitted projects}} the size is not known.', {
                unknown: found.unknown,
              })}
          </p>
          {found.works.length > 0 && (
            <Ledger
              caption={say('Kitted and small enough, the smallest first')}
              rows={found.works}
              rowKey={({ id }) => id}
              rowHref={({ id }) => `/projects/${id}`}
              columns={[
                {
                  key: 'what',
                  head: say('What'),
                  phone: 'lead',
                  cell: ({ title, quantity }) => <WorkName title={title} quantity={quantity} />,
                },
                { key: 'size', head: say('Comes out'), phone: 'line', cell: ({ size }) => roughSize(size, lengthUnit) },
                {
                  key: 'cloth',
                  head: say('On cloth'),
                  phone: 'line',
                  cell: ({ cloth }) =>
                    cloth
                      ? `${[cloth.label, cloth.name].filter(Boolean).join(', ')}, ${formatClothSize(cloth.size, lengthUnit)}`
                      : say('the cloth its chart advises'),
                },
                {
                  key: 'bag',
                  head: say('Bag'),
                  isAtEnd: true,
                  phone: 'side',
                  cell: ({ bag }) => bag && <PlaceLabel label={bag.label} />,
                },
              ]}
            />
          )}
          <p>
            <Link href="/projects">{say('All projects')}</Link>
          </p>
        </>
      )}
    </Section>
  )
}

const Ask = ({ within, unit }: { within: string; unit: LengthUnit }) => (
  <search>
    <form action="/projects" aria-label={say('Kitted and small enough')}>
      <FieldRow>
        <TextField
          name="within"
          label={say('Comes out no larger than')}
          hint={say('One side, or both: {isIn, select, yes {6 in, 6 x 8 in} other {15 cm, 15 x 20 cm}}', {
            isIn: unit === 'in',
          })}
          defaultValue={within}
          width="half"
          maxLength={60}
        />
        <Button type="submit">{say('Show what is kitted')}</Button>
      </FieldRow>
    </form>
  </search>
)
