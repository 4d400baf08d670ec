import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
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
import { missingStatusWords } from '#words/missing'
import { ThingName, thingWords } from '../../_things/thing-name'
import { foundAction, giveUpAction } from '../actions'
import { clueWords, lastHandWords } from '../clue-words'

type PageProps = { params: Promise<{ missingId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const question = await findMissing((await params).missingId)
  return { title: question ? say('Missing: {thing}', { thing: thingWords(question.thing) }) : say('Missing') }
}

export default async function MissingQuestionPage({ params }: PageProps) {
  const question = await findMissing((await params).missingId)
  if (!question) notFound()
  const { thing, lastSeen, project, status, askedAt, askedBy, settledAt, settledBy, note, walkId } = question
  const [{ settings }, clues, places] = await Promise.all([getViewer(), readClues([question]), listPlaceOptions()])
  const { places: likely, lastHands } = clues.get(question.id) ?? { places: [], lastHands: [] }
  const edit = { missingId: question.id, version: String(question.version) }
  const facts = [
    { label: say('What'), value: <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} /> },
    { label: say('Of'), value: question.ownerName },
    { label: say('Lives in'), value: thing.home && <PlaceLabel label={thing.home.label} href={`/places/${thing.home.id}`} /> },
    { label: say('Last seen'), value: lastSeen && <PlaceLabel label={lastSeen.label} href={`/places/${lastSeen.id}`} isAway /> },
    { label: say('For'), value: project && <Link href={`/projects/${project.id}`}>{project.title}</Link> },
    { label: say('Asked'), value: askedBy ? say('{day}, by {who}', { day: dayOf(askedAt), who: askedBy }) : dayOf(askedAt) },
    { label: say('Asked on'), value: walkId && <Link href={`/walks/${walkId}`}>{say('a list of pulls')}</Link> },
    {
      label: say('Settled'),
      value:
        settledAt &&
        `${missingStatusWords[status]}, ${settledBy ? say('{day}, by {who}', { day: dayOf(settledAt), who: settledBy }) : dayOf(settledAt)}`,
    },
    { label: say('Note'), value: note },
  ].filter(({ value }) => value !== null && value !== '')
  return (
    <>
      <PageHead
        title={`${status === 'open' ? say('Where is') : status === 'found' ? say('Found:') : say('Given up:')} ${thingWords(thing)}${status === 'open' ? '?' : ''}`}
        crumbs={[
          { label: say('Places'), href: '/places' },
          { label: say('Missing'), href: '/missing' },
          { label: thingWords(thing) },
        ]}
      />
      <PrintLine>{say('Missing: {thing}', { thing: thingWords(thing) })}</PrintLine>
      <Facts items={facts} />
      {status === 'open' && (
        <Section title={say('Where it may be')} note={likely.length > 0 && say('The likeliest first.')}>
          {likely.length === 0 ? (
            <p>{say('Nothing on record points anywhere. Look into what lies beside its home.')}</p>
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
      <Section title={say('Who had it last')}>
        {lastHands.length === 0 ? (
          <p>{say('The journal has nothing of it.')}</p>
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
          <Section title={say('Found')}>
            <Form action={foundAction} submit={say('It is found')} hidden={edit} label={say('Found')}>
              <ChoiceField
                name="where"
                label={say('Where it is now')}
                defaultValue={thing.home ? 'home' : 'place'}
                options={[
                  ...(thing.home ? [{ value: 'home', label: say('at home, in {label}', { label: thing.home.label }) }] : []),
                  ...(lastSeen && lastSeen.id !== thing.home?.id
                    ? [{ value: 'last-seen', label: say('in {label} after all', { label: lastSeen.label }) }]
                    : []),
                  { value: 'place', label: say('somewhere else: it is out there') },
                ]}
              />
              <TextField
                name="placeLabel"
                label={say('Where else')}
                suggestions={places.slice(0, 400).map(({ label }) => label)}
                width="half"
                maxLength={60}
              />
              {thing.noun === 'thread' && thing.wholePutUps > 1 && (
                <NumberField
                  name="onlyWholePutUps"
                  label={say('Only so many of the {wholePutUps}', { wholePutUps: thing.wholePutUps })}
                  hint={say('Empty: all of it')}
                  isWhole
                />
              )}
              <TextField name="who" label={say('Who found it')} width="half" maxLength={60} />
              <TextField name="note" label={say('Note')} width="half" maxLength={300} />
            </Form>
          </Section>
          <Section title={say('Given up')}>
            <p className="quiet">
              {say('It is written off with the reason, as a correction in the journal. The question stays to be read.')}
            </p>
            <Form action={giveUpAction} submit={say('Give it up')} submitKind="plain" hidden={edit} label={say('Given up')}>
              <TextField
                name="reason"
                label={say('Why')}
                hint={say('Looked everywhere; sold with a bag; torn')}
                isRequired
                maxLength={300}
              />
              <TextField name="who" label={say('Who says so')} width="half" maxLength={60} />
            </Form>
          </Section>
        </>
      )}
    </>
  )
}
