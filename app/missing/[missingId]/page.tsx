import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { findMissing } from '#lib/db/missing/queries'
import { readClues } from '#lib/db/missing/read-clues'
import { listPlaceOptions } from '#lib/db/place/queries'
import { PlaceLabel } from '#trade/place-label'
import { Facts } from '#ui/facts'
import { ChoiceField, NumberField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { dayOf } from '#words/date'
import { ThingName, thingWords } from '../../_things/thing-name'
import { foundAction, giveUpAction } from '../actions'
import { clueWords, lastHandWords } from '../clue-words'

type PageProps = { params: Promise<{ missingId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const question = await findMissing((await params).missingId)
  return { title: question ? `Missing: ${thingWords(question.thing)}` : 'Missing' }
}

export default async function MissingQuestionPage({ params }: PageProps) {
  const question = await findMissing((await params).missingId)
  if (!question) notFound()
  const { thing, lastSeen, project, status, askedAt, askedBy, settledAt, settledBy, note, walkId } = question
  const [{ settings }, clues, places] = await Promise.all([getViewer(), readClues([question]), listPlaceOptions()])
  const { places: likely, lastHands } = clues.get(question.id) ?? { places: [], lastHands: [] }
  const edit = { missingId: question.id, version: String(question.version) }
  const facts = [
    { label: 'What', value: <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} /> },
    { label: 'Of', value: question.ownerName },
    { label: 'Lives in', value: thing.home && <PlaceLabel label={thing.home.label} href={`/places/${thing.home.id}`} /> },
    { label: 'Last seen', value: lastSeen && <PlaceLabel label={lastSeen.label} href={`/places/${lastSeen.id}`} isAway /> },
    { label: 'For', value: project && <Link href={`/projects/${project.id}`}>{project.title}</Link> },
    { label: 'Asked', value: `${dayOf(askedAt)}${askedBy ? `, by ${askedBy}` : ''}` },
    { label: 'Asked on', value: walkId && <Link href={`/walks/${walkId}`}>a list of pulls</Link> },
    { label: 'Settled', value: settledAt && `${status}, ${dayOf(settledAt)}${settledBy ? `, by ${settledBy}` : ''}` },
    { label: 'Note', value: note },
  ].filter(({ value }) => value !== null && value !== '')
  return (
    <>
      <PageHead
        title={`${status === 'open' ? 'Where is' : status === 'found' ? 'Found:' : 'Given up:'} ${thingWords(thing)}${status === 'open' ? '?' : ''}`}
        crumbs={[{ label: 'Places', href: '/places' }, { label: 'Missing', href: '/missing' }, { label: thingWords(thing) }]}
      />
      <PrintLine>Missing: {thingWords(thing)}</PrintLine>
      <Facts items={facts} />
      {status === 'open' && (
        <Section title="Where it may be" note={likely.length > 0 && 'The likeliest first.'}>
          {likely.length === 0 ? (
            <p>Nothing on record points anywhere. Look into what lies beside its home.</p>
          ) : (
            <ol>
              {likely.slice(0, 12).map(({ place, clues: why }) => (
                <li key={place.id}>
                  <PlaceLabel label={place.label} href={`/places/${place.id}`} note={clueWords(why)} />
                </li>
              ))}
            </ol>
          )}
        </Section>
      )}
      <Section title="Who had it last">
        {lastHands.length === 0 ? (
          <p>The journal has nothing of it.</p>
        ) : (
          <ul>
            {lastHands.map((hand) => (
              <li key={`${hand.at.getTime()} ${hand.kind} ${hand.from} ${hand.to}`}>{lastHandWords(hand)}</li>
            ))}
          </ul>
        )}
      </Section>
      {status === 'open' && (
        <>
          <Section title="Found">
            <Form action={foundAction} submit="It is found" hidden={edit} label="Found">
              <ChoiceField
                name="where"
                label="Where it is now"
                defaultValue={thing.home ? 'home' : 'place'}
                options={[
                  ...(thing.home ? [{ value: 'home', label: `at home, in ${thing.home.label}` }] : []),
                  ...(lastSeen && lastSeen.id !== thing.home?.id
                    ? [{ value: 'last-seen', label: `in ${lastSeen.label} after all` }]
                    : []),
                  { value: 'place', label: 'somewhere else: it is out there' },
                ]}
              />
              <TextField
                name="placeLabel"
                label="Where else"
                suggestions={places.slice(0, 400).map(({ label }) => label)}
                width="half"
                maxLength={60}
              />
              {thing.noun === 'thread' && thing.wholePutUps > 1 && (
                <NumberField
                  name="onlyWholePutUps"
                  label={`Only so many of the ${thing.wholePutUps}`}
                  hint="Empty: all of it"
                  isWhole
                />
              )}
              <TextField name="who" label="Who found it" width="half" maxLength={60} />
              <TextField name="note" label="Note" width="half" maxLength={300} />
            </Form>
          </Section>
          <Section title="Given up">
            <p className="quiet">
              It is written off with the reason, as a correction in the journal. The question stays to be read.
            </p>
            <Form action={giveUpAction} submit="Give it up" submitKind="plain" hidden={edit} label="Given up">
              <TextField name="reason" label="Why" hint="Looked everywhere; sold with a bag; torn" isRequired maxLength={300} />
              <TextField name="who" label="Who says so" width="half" maxLength={60} />
            </Form>
          </Section>
        </>
      )}
    </>
  )
}
