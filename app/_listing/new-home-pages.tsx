import { notFound } from 'next/navigation'
import { listCloth } from '#lib/db/cloth/queries'
import { findNewHome, listNewHomes } from '#lib/db/new-home/queries'
import { previewNewHome } from '#lib/db/new-home/read-new-home'
import { listNotions } from '#lib/db/notion/queries'
import { findPlaceByLabel, listPlaceOptions } from '#lib/db/place/queries'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { dayOf } from '#words/date'
import { notionTitle } from '#words/notion'
import s from './bulk.module.css'
import { chosenThings } from './chosen-things'
import { DoneLately } from './done-lately'
import { applyNewHomeAction, undoNewHomeAction } from './new-home-actions'
import { type HomedRoom, homedRooms, leftWords, roomOfNoun } from './new-home-words'

export type NewHomeQuery = Record<string, string | string[] | undefined>

/** More lines than these are counted and not shown. */
const linesShown = 300
const editsShown = 12

const textOf = (query: NewHomeQuery, name: string): string => {
  const value = query[name]
  return typeof value === 'string' ? value.trim().slice(0, 200) : ''
}

async function readAsked(room: HomedRoom, query: NewHomeQuery) {
  const chosenId = textOf(query, 'chosen')
  const { ownerIds, settings } = await getViewer()
  const chosen = await chosenThings(room, chosenId, { ownerIds, unit: settings.lengthUnit })
  return { chosenId, chosen, back: `/${room}/bulk?chosen=${encodeURIComponent(chosenId)}` }
}

const crumbsOf = (room: HomedRoom, last: string) => [{ label: homedRooms[room].title, href: `/${room}` }, { label: last }]

/** What can be done with pieces of cloth or notions that were chosen of their list. */
export async function ChosenThingsPage({ room, query }: { room: HomedRoom; query: NewHomeQuery }) {
  const { noun, word } = homedRooms[room]
  const [{ chosenId, chosen }, places, edits] = await Promise.all([
    readAsked(room, query),
    listPlaceOptions(),
    listNewHomes(noun, editsShown),
  ])
  const lately = <DoneLately edits={edits} hrefOf={(id) => `/${room}/bulk/done/${id}`} />
  if (!chosen || chosen.things.length === 0) {
    return (
      <>
        <PageHead title="Nothing chosen" crumbs={crumbsOf(room, 'Chosen')} />
        <Empty
          title={chosen || chosenId === '' ? 'Nothing of the list is chosen' : 'What was chosen is no longer kept'}
          actions={<LinkButton href={`/${room}`}>Back to the list</LinkButton>}
        >
          Tick rows of the list, or choose all that your choices find. What is chosen is kept for a day.
        </Empty>
        {lately}
      </>
    )
  }
  return (
    <>
      <PageHead
        title={`${counted(chosen.things.length, word)} chosen`}
        crumbs={crumbsOf(room, 'Chosen')}
        byline="Nothing changes before you have seen what would change, and it can be taken back."
        actions={<LinkButton href={`/${room}?${chosen.filter}`}>Choose others</LinkButton>}
      />
      {room === 'cloth' && (
        <Section title="Use them" note="Nothing on record changes.">
          <ButtonRow>
            <LinkButton href={`/labels?chosen=${chosenId}&which=all`}>Print labels</LinkButton>
          </ButtonRow>
        </Section>
      )}
      <form action={`/${room}/bulk/preview`} className={s.form} aria-label={`Change the chosen ${word}s`}>
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title="They live somewhere else">
          <TextField
            name="home"
            label="New home"
            hint="By its label. What is out stays out, and comes back to the new one."
            suggestions={places.map(({ label }) => label)}
            width="half"
            maxLength={100}
          />
        </Section>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            Look at what would change
          </Button>
        </div>
      </form>
      {lately}
    </>
  )
}

type ThingLine = { id: string; title: string; before: string; after: string; note: string | false }

function ThingLines({ room, caption, lines }: { room: HomedRoom; caption: string; lines: readonly ThingLine[] }) {
  return (
    <Ledger
      caption={caption}
      rows={lines.slice(0, linesShown)}
      rowKey={({ id }) => id}
      isTight
      columns={[
        {
          key: 'what',
          head: homedRooms[room].title,
          cell: ({ id, title }) => <Link href={`/${room}/${id}`}>{title}</Link>,
          phone: 'lead',
        },
        { key: 'before', head: 'Lives in, before', cell: ({ before }) => before, phone: 'labelled' },
        { key: 'after', head: 'After', cell: ({ after }) => <b>{after}</b>, phone: 'labelled' },
        { key: 'note', head: 'Note', cell: ({ note }) => note, isAtEnd: true, phone: 'wide' },
      ]}
    />
  )
}

const shownNote = (count: number) =>
  count > linesShown ? `The first ${linesShown} of ${count.toLocaleString('en-GB')}.` : undefined

/** What another home would do, line by line, before it is done. */
export async function NewHomePreviewPage({ room, query }: { room: HomedRoom; query: NewHomeQuery }) {
  const { noun, word } = homedRooms[room]
  const home = textOf(query, 'home')
  const [{ chosenId, chosen, back }, place] = await Promise.all([readAsked(room, query), findPlaceByLabel(home)])
  const wrong = !chosen
    ? 'What was chosen is no longer kept. Choose again.'
    : home === ''
      ? 'Say where they are to live, by the label of the place.'
      : !place
        ? `No place is labelled ${home}. Choose one of the list, or add it under Places first.`
        : null
  if (!chosen || !place || wrong !== null) {
    return (
      <>
        <PageHead title="What would change" crumbs={crumbsOf(room, 'Look first')} />
        <Notice kind="refusal" title={wrong ?? ''} actions={<LinkButton href={chosen ? back : `/${room}`}>Back</LinkButton>}>
          Nothing was changed.
        </Notice>
      </>
    )
  }
  const titles = new Map(chosen.things.map((thing) => [thing.id, thing]))
  const { lines, fingerprint } = await previewNewHome({ noun, ids: [...titles.keys()], toPlaceId: place.id })
  const changing = lines.filter(({ isChanged }) => isChanged)
  const same = lines.length - changing.length
  const what = `New home ${place.label}`
  return (
    <>
      <PageHead
        title={what}
        note={counted(lines.length, word)}
        crumbs={[{ label: homedRooms[room].title, href: `/${room}` }, { label: 'Chosen', href: back }, { label: 'Look first' }]}
        byline="Nothing is written yet."
      >
        <p>
          {changing.length === 0
            ? 'Nothing would change: all of them live there already.'
            : same === 0
              ? `${counted(changing.length, word)} would change.`
              : `${counted(changing.length, word)} would change, ${same} live there already.`}
        </p>
      </PageHead>
      {changing.length > 0 ? (
        <Section title="Do it" note="All in one, or not at all. It can be taken back afterwards.">
          <Form
            label={what}
            action={applyNewHomeAction}
            submit={`Change ${counted(changing.length, word)}`}
            hidden={{ room, chosen: chosenId, home: place.label, fingerprint }}
            actions={
              <LinkButton kind="quiet" href={back}>
                Leave it
              </LinkButton>
            }
          >
            <TextField name="who" label="Who does it" hint="For the journal; may be left empty." width="half" maxLength={200} />
          </Form>
        </Section>
      ) : (
        <Empty actions={<LinkButton href={back}>Back to what was chosen</LinkButton>}>All is so already.</Empty>
      )}
      {changing.length > 0 && (
        <Section title="Line by line" note={shownNote(changing.length)}>
          <ThingLines
            room={room}
            caption={`${what}: before and after`}
            lines={changing.map(({ id, isOut }) => ({
              ...{ id, title: titles.get(id)?.title ?? '', before: titles.get(id)?.homeLabel ?? 'no place yet' },
              ...{ after: place.label, note: isOut && 'out, and stays where it is' },
            }))}
          />
        </Section>
      )}
    </>
  )
}

/** A change that was made, and the way back. */
export async function NewHomeDonePage({ room, bulkEditId }: { room: HomedRoom; bulkEditId: string }) {
  const edit = await findNewHome(bulkEditId)
  if (!edit || roomOfNoun(edit.noun) !== room) notFound()
  const { ownerIds } = await getViewer()
  const { word } = homedRooms[room]
  const [places, titles] = await Promise.all([
    listPlaceOptions(),
    room === 'cloth'
      ? listCloth(ownerIds).then((all) => new Map(all.map((piece) => [piece.id, pieceTitle(piece)])))
      : listNotions(ownerIds).then((all) => new Map(all.map((notion) => [notion.id, notionTitle(notion)]))),
  ])
  const labelOf = (id: string | null) => places.find((place) => place.id === id)?.label ?? 'no place yet'
  const nameOf = (id: string) => titles.get(id) ?? `a ${word} that is not on show`
  const takenBack = edit.steps.length - edit.left.length
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, word)}
        crumbs={[
          { label: homedRooms[room].title, href: `/${room}` },
          { label: 'Chosen', href: `/${room}/bulk` },
          { label: edit.what },
        ]}
        byline={`${dayOf(edit.at)}${edit.who ? `, by ${edit.who}` : ''}.`}
        actions={<LinkButton href={`/${room}`}>To the list</LinkButton>}
      />
      {edit.isUndone ? (
        <Notice kind="done" title={`Taken back: ${counted(takenBack, word)} as before.`}>
          {edit.left.length > 0 && `${counted(edit.left.length, word)} left alone, named below.`}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={`Done: ${counted(edit.steps.length, word)} changed.`}
          actions={
            <ConfirmDialog
              opener="Take it back"
              title={`Take back “${edit.what}”?`}
              confirm="Take it back"
              action={undoNewHomeAction}
              hidden={{ bulkEditId: edit.id }}
            >
              <p>Everything is as it was before. What somebody changed since is left alone, and named.</p>
            </ConfirmDialog>
          }
        />
      )}
      {edit.left.length > 0 && (
        <Section title="Left alone">
          <ul className={s.edits}>
            {edit.left.slice(0, linesShown).map(({ id, why }) => (
              <li key={id}>
                <span>{nameOf(id)}</span>
                <span>{leftWords[why]}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section title="What changed" note={shownNote(edit.steps.length)}>
        <ThingLines
          room={room}
          caption={`${edit.what}: before and after`}
          lines={edit.steps.map(({ id, before }) => ({
            ...{ id, title: nameOf(id), before: labelOf(before.homePlaceId), after: labelOf(edit.toPlaceId), note: false },
          }))}
        />
      </Section>
    </>
  )
}
