import { notFound } from 'next/navigation'
import { say } from '#language/say'
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

const crumbsOf = (room: HomedRoom, last: string) => [{ label: homedRooms()[room].title, href: `/${room}` }, { label: last }]

/** What can be done with pieces of cloth or notions that were chosen of their list. */
export async function ChosenThingsPage({ room, query }: { room: HomedRoom; query: NewHomeQuery }) {
  const { noun, word } = homedRooms()[room]
  const [{ chosenId, chosen }, places, edits] = await Promise.all([
    readAsked(room, query),
    listPlaceOptions(),
    listNewHomes(noun, editsShown),
  ])
  const lately = <DoneLately edits={edits} hrefOf={(id) => `/${room}/bulk/done/${id}`} />
  if (!chosen || chosen.things.length === 0) {
    return (
      <>
        <PageHead title={say('Nothing chosen')} crumbs={crumbsOf(room, say('Chosen'))} />
        <Empty
          title={chosen || chosenId === '' ? say('Nothing of the list is chosen') : say('What was chosen is no longer kept')}
          actions={<LinkButton href={`/${room}`}>{say('Back to the list')}</LinkButton>}
        >
          {say('Tick rows of the list, or choose all that your choices find. What is chosen is kept for a day.')}
        </Empty>
        {lately}
      </>
    )
  }
  return (
    <>
      <PageHead
        title={say('{counted} chosen', { counted: counted(chosen.things.length, word) })}
        crumbs={crumbsOf(room, say('Chosen'))}
        byline={say('Nothing changes before you have seen what would change, and it can be taken back.')}
        actions={<LinkButton href={`/${room}?${chosen.filter}`}>{say('Choose others')}</LinkButton>}
      />
      {room === 'cloth' && (
        <Section title={say('Use them')} note={say('Nothing on record changes.')}>
          <ButtonRow>
            <LinkButton href={`/labels?chosen=${chosenId}&which=all`}>{say('Print labels')}</LinkButton>
          </ButtonRow>
        </Section>
      )}
      <form
        action={`/${room}/bulk/preview`}
        className={s.form}
        aria-label={room === 'cloth' ? say('Change the chosen pieces') : say('Change the chosen notions')}
      >
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title={say('They live somewhere else')}>
          <TextField
            name="home"
            label={say('New home')}
            hint={say('By its label. What is out stays out, and comes back to the new one.')}
            suggestions={places.map(({ label }) => label)}
            width="half"
            maxLength={100}
          />
        </Section>
        <div className={s.acts}>
          <Button kind="first" type="submit">
            {say('Look at what would change')}
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
          head: homedRooms()[room].title,
          cell: ({ id, title }) => <Link href={`/${room}/${id}`}>{title}</Link>,
          phone: 'lead',
        },
        { key: 'before', head: say('Lives in, before'), cell: ({ before }) => before, phone: 'labelled' },
        { key: 'after', head: say('After'), cell: ({ after }) => <b>{after}</b>, phone: 'labelled' },
        { key: 'note', head: say('Note'), cell: ({ note }) => note, isAtEnd: true, phone: 'wide' },
      ]}
    />
  )
}

const shownNote = (count: number) =>
  count > linesShown ? say('The first {linesShown} of {count, number}.', { linesShown, count }) : undefined

/** What another home would do, line by line, before it is done. */
export async function NewHomePreviewPage({ room, query }: { room: HomedRoom; query: NewHomeQuery }) {
  const { noun, word } = homedRooms()[room]
  const home = textOf(query, 'home')
  const [{ chosenId, chosen, back }, place] = await Promise.all([readAsked(room, query), findPlaceByLabel(home)])
  const wrong = !chosen
    ? say('What was chosen is no longer kept. Choose again.')
    : home === ''
      ? say('Say where they are to live, by the label of the place.')
      : !place
        ? say('No place is labelled {home}. Choose one of the list, or add it under Places first.', { home })
        : null
  if (!chosen || !place || wrong !== null) {
    return (
      <>
        <PageHead title={say('What would change')} crumbs={crumbsOf(room, say('Look first'))} />
        <Notice
          kind="refusal"
          title={wrong ?? ''}
          actions={<LinkButton href={chosen ? back : `/${room}`}>{say('Back')}</LinkButton>}
        >
          {say('Nothing was changed.')}
        </Notice>
      </>
    )
  }
  const titles = new Map(chosen.things.map((thing) => [thing.id, thing]))
  const { lines, fingerprint } = await previewNewHome({ noun, ids: [...titles.keys()], toPlaceId: place.id })
  const changing = lines.filter(({ isChanged }) => isChanged)
  const same = lines.length - changing.length
  const what = say('New home {label}', { label: place.label })
  return (
    <>
      <PageHead
        title={what}
        note={counted(lines.length, word)}
        crumbs={[
          { label: homedRooms()[room].title, href: `/${room}` },
          { label: say('Chosen'), href: back },
          { label: say('Look first') },
        ]}
        byline={say('Nothing is written yet.')}
      >
        <p>
          {changing.length === 0
            ? say('Nothing would change: all of them live there already.')
            : same === 0
              ? say('{counted} would change.', { counted: counted(changing.length, word) })
              : say('{counted} would change, {same} live there already.', { counted: counted(changing.length, word), same })}
        </p>
      </PageHead>
      {changing.length > 0 ? (
        <Section title={say('Do it')} note={say('All in one, or not at all. It can be taken back afterwards.')}>
          <Form
            label={what}
            action={applyNewHomeAction}
            submit={say('Change {counted}', { counted: counted(changing.length, word) })}
            hidden={{ room, chosen: chosenId, home: place.label, fingerprint }}
            actions={
              <LinkButton kind="quiet" href={back}>
                {say('Leave it')}
              </LinkButton>
            }
          >
            <TextField
              name="who"
              label={say('Who does it')}
              hint={say('For the journal; may be left empty.')}
              width="half"
              maxLength={200}
            />
          </Form>
        </Section>
      ) : (
        <Empty actions={<LinkButton href={back}>{say('Back to what was chosen')}</LinkButton>}>{say('All is so already.')}</Empty>
      )}
      {changing.length > 0 && (
        <Section title={say('Line by line')} note={shownNote(changing.length)}>
          <ThingLines
            room={room}
            caption={say('{what}: before and after', { what })}
            lines={changing.map(({ id, isOut }) => ({
              ...{ id, title: titles.get(id)?.title ?? '', before: titles.get(id)?.homeLabel ?? say('no place yet') },
              ...{ after: place.label, note: isOut && say('out, and stays where it is') },
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
  const { word } = homedRooms()[room]
  const [places, titles] = await Promise.all([
    listPlaceOptions(),
    room === 'cloth'
      ? listCloth(ownerIds).then((all) => new Map(all.map((piece) => [piece.id, pieceTitle(piece)])))
      : listNotions(ownerIds).then((all) => new Map(all.map((notion) => [notion.id, notionTitle(notion)]))),
  ])
  const labelOf = (id: string | null) => places.find((place) => place.id === id)?.label ?? say('no place yet')
  const nameOf = (id: string) => titles.get(id) ?? say('a {word} that is not on show', { word })
  const takenBack = edit.steps.length - edit.left.length
  return (
    <>
      <PageHead
        title={edit.what}
        note={counted(edit.steps.length, word)}
        crumbs={[
          { label: homedRooms()[room].title, href: `/${room}` },
          { label: say('Chosen'), href: `/${room}/bulk` },
          { label: edit.what },
        ]}
        byline={`${dayOf(edit.at)}${edit.who ? say(', by {who}', { who: edit.who }) : ''}.`}
        actions={<LinkButton href={`/${room}`}>{say('To the list')}</LinkButton>}
      />
      {edit.isUndone ? (
        <Notice kind="done" title={say('Taken back: {counted} as before.', { counted: counted(takenBack, word) })}>
          {edit.left.length > 0 && say('{counted} left alone, named below.', { counted: counted(edit.left.length, word) })}
        </Notice>
      ) : (
        <Notice
          kind="done"
          title={say('Done: {counted} changed.', { counted: counted(edit.steps.length, word) })}
          actions={
            <ConfirmDialog
              opener={say('Take it back')}
              title={say('Take back “{what}”?', { what: edit.what })}
              confirm={say('Take it back')}
              action={undoNewHomeAction}
              hidden={{ bulkEditId: edit.id }}
            >
              <p>{say('Everything is as it was before. What somebody changed since is left alone, and named.')}</p>
            </ConfirmDialog>
          }
        />
      )}
      {edit.left.length > 0 && (
        <Section title={say('Left alone')}>
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
      <Section title={say('What changed')} note={shownNote(edit.steps.length)}>
        <ThingLines
          room={room}
          caption={say('{what}: before and after', { what: edit.what })}
          lines={edit.steps.map(({ id, before }) => ({
            ...{ id, title: nameOf(id), before: labelOf(before.homePlaceId), after: labelOf(edit.toPlaceId), note: false },
          }))}
        />
      </Section>
    </>
  )
}
