import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { findToReport, openQuestionsOf } from '#lib/db/missing/queries'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { Facts } from '#ui/facts'
import { CheckField, NumberField, SelectField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { plural } from '#words/amounts'
import { partWords } from '#words/stock'
import { ThingName, thingWords } from '../../_things/thing-name'
import { reportMissingAction } from '../actions'
import { newMissingPageSchema } from '../schema'

export const generateMetadata = (): Metadata => ({ title: say('It is not there') })

export default async function NewMissingPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const { noun, id } = newMissingPageSchema.parse(await searchParams)
  const [{ settings }, found, open] = await Promise.all([getViewer(), findToReport(noun, id), openQuestionsOf([id])])
  if (!found) notFound()
  const { thing, ownerName, projects } = found
  const asked = open.get(id)
  const crumbs = [
    { label: say('Places'), href: '/places' },
    { label: say('Missing'), href: '/missing' },
    { label: thingWords(thing) },
  ]
  const here = thing.current ?? thing.home
  return (
    <>
      <PageHead
        title={say('Not there: {thing}', { thing: thingWords(thing) })}
        crumbs={crumbs}
        byline={say(
          'It goes on record as not found: out, not free, and asked for until it turns up. Look once more first, in the places beside it too.',
        )}
      />
      <Facts
        items={[
          {
            label: say('What'),
            value: <ThingName thing={thing} threadUnit={settings.threadUnit} lengthUnit={settings.lengthUnit} />,
          },
          { label: say('Of'), value: ownerName },
          {
            label: say('The record has it in'),
            value: here ? <PlaceLabel label={here.label} href={`/places/${here.id}`} /> : say('no place'),
          },
        ]}
      />
      {asked ? (
        <Notice
          kind="caution"
          title={say('It is being looked for already.')}
          actions={<LinkButton href={`/missing/${asked}`}>{say('To the question')}</LinkButton>}
        />
      ) : (
        <Section title={say('What is missing')}>
          <Form
            action={reportMissingAction}
            submit={say('It is not there')}
            hidden={{ noun, id, version: String(thing.version) }}
            label={say('Report it missing')}
          >
            {thing.noun === 'thread' && thing.wholePutUps > 0 && (
              <NumberField
                name="wholePutUps"
                label={say('Missing {plural}, of {wholePutUps}', {
                  plural: plural(thing.putUpWord),
                  wholePutUps: thing.wholePutUps,
                })}
                defaultValue={thing.wholePutUps}
                isWhole
              />
            )}
            {thing.noun === 'thread' && thing.partCertainty !== 'none' && (
              <CheckField
                name="takesPart"
                label={say('The part ({part}) is missing too', { part: partWords(thing, thing.strands, settings.threadUnit) })}
                defaultChecked
              />
            )}
            {projects.length > 0 && (
              <SelectField
                name="projectId"
                label={say('Wanted for')}
                none={say('no project')}
                options={projects.map((project) => ({ value: project.id, label: project.title }))}
                defaultValue={projects[0]?.id}
                width="half"
              />
            )}
            <TextField name="who" label={say('Who looked')} width="half" maxLength={60} />
            <TextField name="note" label={say('Note')} hint={say('Where you looked already')} maxLength={300} />
          </Form>
        </Section>
      )}
    </>
  )
}
