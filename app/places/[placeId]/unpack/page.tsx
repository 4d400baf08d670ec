import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { mostThings, readUnpackSheet, type UnpackProject, type UnpackSheet } from '#lib/db/unpack/unpack-sheet'
import { listUnpackings, readUnpacked } from '#lib/db/unpack/unpacked'
import type { Settings } from '#lib/settings/settings'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { dayOf } from '#words/date'
import { walkStatusWords } from '#words/walk'
import { placeTitle } from '../../words'
import { unpackAction } from './actions'
import { freedField } from './read-unpack'
import { unpackPageSchema } from './schema'
import s from './unpack.module.css'
import { ThingRow, ThreadRow } from './unpack-rows'
import { UnpackedView } from './unpacked-view'

type PageProps = { params: Promise<{ placeId: string }>; searchParams: Promise<Record<string, unknown>> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const sheet = await readUnpackSheet((await params).placeId)
  return { title: sheet ? say('Unpack {label}', { label: sheet.place.label }) : say('Unpack') }
}

export default async function UnpackPage({ params, searchParams }: PageProps) {
  const { placeId } = await params
  const { at, part } = unpackPageSchema.parse(await searchParams)
  const [{ settings, ownerIds }, sheet, done, earlier] = await Promise.all([
    getViewer(),
    readUnpackSheet(placeId),
    at === undefined ? null : readUnpacked(placeId, new Date(at)),
    listUnpackings(placeId),
  ])
  if (!sheet) notFound()
  const { place } = sheet
  const isPart = part !== undefined
  const count = sheet.threads.length + sheet.things.length
  const crumbs = [
    { label: say('Places'), href: '/places' },
    { label: place.label, href: `/places/${place.id}` },
    { label: say('Unpack'), ...(done && { href: `/places/${place.id}/unpack` }) },
    ...(done ? [{ label: dayOf(done.at) }] : []),
  ]
  if (done)
    return (
      <>
        <PageHead
          title={say('Unpacked: {placeTitle}', { placeTitle: placeTitle(place) })}
          crumbs={crumbs}
          byline={say('On {at}. It stays here to be looked at again.', { at: dayOf(done.at) })}
          actions={count > 0 && <LinkButton href={`/places/${place.id}/unpack`}>{say('Unpack the rest')}</LinkButton>}
        />
        <PrintLine>{sayParts('Put back from {label}, {at}', { label: place.label, at: dayOf(done.at) })}</PrintLine>
        <UnpackedView list={done} settings={settings} />
      </>
    )
  return (
    <>
      <PageHead
        title={say('Unpack {placeTitle}', { placeTitle: placeTitle(place) })}
        crumbs={crumbs}
        note={count > 0 && counted(count, 'thing')}
        byline={say(
          'Say of each thing what became of it. What is left becomes a put-back list in walking order; what is not there stays out, last seen here, until it turns up.',
        )}
        actions={
          count > 0 &&
          (isPart ? (
            <LinkButton href={`/places/${place.id}/unpack`}>{say('Take out everything')}</LinkButton>
          ) : (
            <LinkButton href={`/places/${place.id}/unpack?part=1`}>{say('Take out only some')}</LinkButton>
          ))
        }
      />
      <PrintLine>{sayParts('What is in {label}', { label: place.label })}</PrintLine>
      {at !== undefined && <Notice kind="caution" title={say('Nothing was unpacked at that moment, or its list was removed.')} />}
      <Standing sheet={sheet} />
      {count === 0 ? (
        <Empty
          title={say('Nothing to unpack')}
          actions={<LinkButton href={`/places/${place.id}`}>{sayParts('To {label}', { label: place.label })}</LinkButton>}
        >
          {sheet.livesHere > 0
            ? say('Only what lives here is in it: {livesHere, plural, one {# thing} other {# things}}.', {
                livesHere: sheet.livesHere,
              })
            : say('Nothing lies in it that lives elsewhere.')}
        </Empty>
      ) : (
        <UnpackForm sheet={sheet} isPart={isPart} settings={settings} ownerIds={ownerIds} />
      )}
      {earlier.length > 0 && (
        <Section title={say('Unpacked before')}>
          <ul>
            {earlier.map((one) => (
              <li key={one.walkId}>
                {sayParts('{at}, list {status}', {
                  at: <Link href={`/places/${place.id}/unpack?at=${one.at.getTime()}`}>{dayOf(one.at)}</Link>,
                  status: walkStatusWords[one.status],
                })}
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}

/** What of it is spoken for already. */
function Standing({ sheet }: { sheet: UnpackSheet }) {
  const { onLists, missing, livesHere } = sheet
  return (
    <>
      {onLists.map(({ walkId, title, things }) => (
        <p key={walkId}>
          {sayParts(
            '{title}: {things, plural, one {# thing} other {# things}} {things, plural, one {waits} other {wait}} to be ticked home.',
            { title: <Link href={`/walks/${walkId}`}>{title}</Link>, things },
          )}
        </p>
      ))}
      {missing > 0 && (
        <p>
          {sayParts(
            '{counted} {missing, plural, one {was} other {were}} seen here last and {missing, plural, one {is} other {are}} being looked for.',
            { counted: <Link href="/missing">{counted(missing, 'thing')}</Link>, missing },
          )}
        </p>
      )}
      {livesHere > 0 && (
        <p className="quiet">
          {say('{livesHere, plural, one {# thing} other {# things}} that live in it stay, and are not listed.', { livesHere })}
        </p>
      )}
      {sheet.threads.length + sheet.things.length >= mostThings && (
        <p className="quiet">
          {sayParts('The first {mostThings} things are listed. Unpack these, then the rest.', { mostThings })}
        </p>
      )}
    </>
  )
}

type UnpackFormProps = { sheet: UnpackSheet; isPart: boolean; settings: Settings; ownerIds: readonly string[] }

function UnpackForm({ sheet, isPart, settings, ownerIds }: UnpackFormProps) {
  const { place, threads, things, projects } = sheet
  const isOurs = ({ owner }: { owner: { id: string } }) => ownerIds.includes(owner.id)
  const others = [...new Set([...threads, ...things].filter((row) => !isOurs(row)).map(({ owner }) => owner.name))]
  const groups = [
    {
      key: 'threads',
      title: say('Thread'),
      note: say('In the order of the drawers it goes back to.'),
      threads: threads.filter(isOurs),
      things: [],
    },
    { key: 'things', title: say('Cloth, chart and notions'), note: undefined, threads: [], things: things.filter(isOurs) },
    ...others.map((name) => ({
      key: name,
      title: say('Of {name}', { name }),
      note: say('Another owner’s goods: they go back to their own places.'),
      threads: threads.filter((row) => !isOurs(row) && row.owner.name === name),
      things: things.filter((row) => !isOurs(row) && row.owner.name === name),
    })),
  ]
  return (
    <Form
      action={unpackAction}
      submit={say('Unpack')}
      pending={say('Writing it down')}
      hidden={{ placeId: place.id }}
      label={say('Unpack {label}', { label: place.label })}
    >
      <p className={s.hint}>
        {say(
          'Left over: write 0.7 for seven tenths of a put-up judged by eye, {isM, select, yes {2.5 m} other {2.5 yd}} for what a ruler says, 3.1 g for what the scales say without band, card or bobbin. Put needles into their case before you reach in.',
          { isM: settings.threadUnit === 'm' },
        )}
      </p>
      {groups
        .filter((group) => group.threads.length + group.things.length > 0)
        .map((group) => (
          <Section key={group.key} title={group.title} note={group.note}>
            <ol className={s.rows}>
              {group.threads.map((row) => (
                <ThreadRow key={row.id} row={row} isPart={isPart} settings={settings} />
              ))}
              {group.things.map((row) => (
                <ThingRow key={row.id} row={row} isPart={isPart} settings={settings} />
              ))}
            </ol>
          </Section>
        ))}
      {projects.map((project) => (
        <ProjectChoice key={project.id} project={project} />
      ))}
      <TextField
        name="who"
        label={say('Who unpacks it')}
        hint={say('For the journal; may stay empty')}
        width="half"
        maxLength={60}
      />
    </Form>
  )
}

/** A project under way: is what goes back still promised to it? */
const ProjectChoice = ({ project: { id, title, status } }: { project: UnpackProject }) => (
  <ChoiceField
    name={freedField(id)}
    label={say('{title} is still under way ({status}). What goes back is', { title, status })}
    defaultValue={status === 'stitched' ? 'free' : 'kept'}
    options={[
      { value: 'kept', label: say('still promised to it') },
      { value: 'free', label: status === 'kitted' ? say('free again, and the project is planned as before') : say('free again') },
    ]}
  />
)
