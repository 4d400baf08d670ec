import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { z } from 'zod'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { chartsPerPage, findPlaceContents, type ThingHere } from '#lib/db/place/contents'
import type { PlaceRecord } from '#lib/db/place/place-rows'
import { listPlaces } from '#lib/db/place/queries'
import { givenPlaceKinds } from '#lib/place/place'
import { placePath } from '#lib/place/place-tree'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, ChoiceField, FieldRow, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { ThingName, thingWords } from '../../../_things/thing-name'
import { splitPlaceAction } from '../../change-actions'
import { splitField } from '../../schema'
import { kindWord, placeTitle } from '../../words'

export const generateMetadata = (): Metadata => ({ title: say('Split a place') })

const searchSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })

type Row = { noun: 'place'; place: PlaceRecord } | { noun: 'thing'; thing: ThingHere }

type PageProps = { params: Promise<{ placeId: string }>; searchParams: Promise<Record<string, unknown>> }

export default async function SplitPlacePage({ params, searchParams }: PageProps) {
  const { placeId } = await params
  const { page } = searchSchema.parse(await searchParams)
  const [places, { settings, ownerIds, ownerName }] = await Promise.all([listPlaces(), getViewer()])
  const place = places.find(({ id }) => id === placeId)
  if (!place) notFound()
  const contents = await findPlaceContents({ placeIds: [placeId], ownerIds, chartPage: page })
  const living: ThingHere[] = [...contents.threads, ...contents.cloth, ...contents.notions, ...contents.charts].filter(
    ({ home }) => home?.id === placeId,
  )
  const inside = places.filter(({ parentId }) => parentId === placeId)
  const rows: Row[] = [
    ...inside.map((each): Row => ({ noun: 'place', place: each })),
    ...living.map((thing): Row => ({ noun: 'thing', thing })),
  ]
  const columns: Column<Row>[] = [
    {
      key: 'goes',
      head: say('Goes'),
      cell: (row) =>
        row.noun === 'place' ? (
          <CheckField
            name={splitField('place', row.place.id)}
            value={String(row.place.version)}
            label={<span className="vh">{sayParts('{label} goes to the new place', { label: row.place.label })}</span>}
          />
        ) : (
          <CheckField
            name={splitField(row.thing.noun, row.thing.id)}
            value={String(row.thing.version)}
            label={<span className="vh">{say('{thing} goes to the new place', { thing: thingWords(row.thing) })}</span>}
          />
        ),
      width: '4rem',
      phone: 'mark',
    },
    {
      key: 'what',
      head: say('What'),
      cell: (row) =>
        row.noun === 'place' ? (
          <PlaceLabel
            label={row.place.label}
            href={`/places/${row.place.id}`}
            note={row.place.name ?? kindWord(row.place.kind)}
          />
        ) : (
          <ThingName thing={row.thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />
        ),
      phone: 'lead',
    },
    {
      key: 'now',
      head: say('Where it is now'),
      cell: (row) =>
        row.noun === 'thing' &&
        row.thing.isOut &&
        row.thing.current && (
          <PlaceLabel label={row.thing.current.label} href={`/places/${row.thing.current.id}`} isAway note={say('stays out')} />
        ),
      isAtEnd: true,
      phone: 'line',
    },
  ]
  const path = placePath(place, new Map(places.map((each) => [each.id, each])))
  return (
    <>
      <PageHead
        title={say('Split {placeTitle}', { placeTitle: placeTitle(place) })}
        crumbs={[
          { label: say('Places'), href: '/places' },
          ...path.map(({ id, label }) => ({ label, href: `/places/${id}` })),
          { label: say('Split') },
        ]}
        byline={say(
          'Part of what lives here gets a place of its own. What is ticked below goes; {rest}. The label is remembered.',
          {
            rest:
              ownerName === 'everyone'
                ? say('the rest stays')
                : say('the rest stays, and so do the goods of others than {ownerName}', { ownerName }),
          },
        )}
      />
      {rows.length === 0 ? (
        <Empty
          title={say('Nothing to split off')}
          actions={<LinkButton href={`/places/${place.id}`}>{say('Back to it')}</LinkButton>}
        >
          {sayParts('Nothing of {ownerName} lives right in it, and no place stands inside it.', { ownerName })}
        </Empty>
      ) : (
        <Form
          action={splitPlaceAction}
          hidden={{ id: place.id, version: String(place.version) }}
          submit={say('Split it')}
          pending={say('Splitting')}
          actions={<LinkButton href={`/places/${place.id}`}>{say('Leave it')}</LinkButton>}
        >
          <FieldRow>
            <TextField name="label" label={say('Label of the new place')} maxLength={60} width="half" isRequired />
            <SelectField
              name="kind"
              label={say('Sort of place')}
              options={givenPlaceKinds.map((kind) => ({ value: kind, label: kindWord(kind) }))}
              defaultValue={place.kind}
              width="half"
            />
          </FieldRow>
          <TextField name="name" label={say('Name')} maxLength={120} />
          <ChoiceField
            name="way"
            label={say('It stands')}
            options={[
              { value: 'beside', label: say('beside {label}', { label: place.label }) },
              { value: 'inside', label: say('inside {label}', { label: place.label }) },
            ]}
            defaultValue="beside"
          />
          <Section title={say('What goes to it')}>
            <Ledger
              caption={say('What lives in {label}', { label: place.label })}
              rows={rows}
              rowKey={(row) => (row.noun === 'place' ? row.place.id : `${row.thing.noun} ${row.thing.id}`)}
              columns={columns}
              isTight
            />
            {contents.chartCount > chartsPerPage && (
              <Pager
                page={page}
                pages={Math.ceil(contents.chartCount / chartsPerPage)}
                hrefForPage={(to) => `/places/${place.id}/split?page=${to}`}
                shown={say('{page} to {min} of {chartCount} charts; one page is split off at a time', {
                  page: (page - 1) * chartsPerPage + 1,
                  min: Math.min(page * chartsPerPage, contents.chartCount),
                  chartCount: contents.chartCount,
                })}
              />
            )}
          </Section>
        </Form>
      )}
    </>
  )
}
