import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { getAnswers } from '#lib/db/answers/get-answers'
import { themeAxes } from '#lib/db/chart/ensure-themes'
import { chartEndings } from '#lib/db/chart/remove-chart'
import { listChartBulks } from '#lib/db/chart-bulk/queries'
import { listPlaceOptions } from '#lib/db/place/queries'
import { mostStars } from '#lib/planning/together/wish-value'
import { Button, ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { SelectField, TextField } from '#ui/field'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import s from '../../_listing/bulk.module.css'
import { ChangeChoice } from '../../_listing/change-choice'
import { chosenDesigns } from '../../_listing/chosen-designs'
import { DoneLately } from '../../_listing/done-lately'
import { axisWords, endingWords, type Query, readAsked } from './schema'

export const generateMetadata = (): Metadata => ({ title: say('Chosen charts') })

const editsShown = 12
/** As many designs as the address of another screen holds. */
const mostToBuy = 50
const mostTogether = 100

const crumbs = () => [{ label: say('Charts'), href: '/charts' }, { label: say('Chosen') }]

export default async function ChartBulkPage({ searchParams }: { searchParams: Promise<Query> }) {
  const { chosen: chosenId } = readAsked(await searchParams)
  const [{ ownerIds, owners }, answers, places, edits] = await Promise.all([
    getViewer(),
    getAnswers(),
    listPlaceOptions(),
    listChartBulks(editsShown),
  ])
  const chosen = chosenId === '' ? null : await chosenDesigns(answers, chosenId, ownerIds)
  const lately = <DoneLately edits={edits} hrefOf={(id) => `/charts/bulk/done/${id}`} />
  if (!chosen || chosen.designIds.length === 0) {
    return (
      <>
        <PageHead title={say('Chosen charts')} crumbs={crumbs()} />
        <Empty
          title={chosen || chosenId === '' ? say('No chart is chosen') : say('What was chosen is no longer kept')}
          actions={<LinkButton href={`/charts?${chosen?.filter ?? ''}`}>{say('Back to the charts')}</LinkButton>}
        >
          {say(
            'Tick rows of the list, or choose all that your choices find; then say here what is to be done with them. What is chosen is kept for a day.',
          )}
        </Empty>
        {lately}
      </>
    )
  }
  const { designIds, chartIds, filter } = chosen
  const back = `/charts?${filter}`
  const named = (name: string) => new URLSearchParams(designIds.map((id) => [name, id]))
  const themes = [...answers.world.themes]
    .map(([id, { name, axis }]) => ({ value: id, label: name, group: axisWords[axis as keyof typeof axisWords] }))
    .sort((a, b) => a.group.localeCompare(b.group, 'en-GB') || a.label.localeCompare(b.label, 'en-GB'))
  return (
    <>
      <PageHead
        title={say('{designIds, plural, one {# design} other {# designs}} chosen', { designIds: designIds.length })}
        note={
          chartIds.length === designIds.length
            ? undefined
            : say('in {chartIds, plural, one {# chart} other {# charts}}', { chartIds: chartIds.length })
        }
        crumbs={crumbs()}
        byline={say('Nothing changes before you have seen what would change, and it can be taken back.')}
        actions={<LinkButton href={back}>{say('Choose others')}</LinkButton>}
      />
      <Section title={say('Use them')} note={say('Nothing on record changes.')}>
        <ButtonRow>
          <LinkButton href={`/labels?chosen=${chosenId}&which=all`}>{say('Print labels')}</LinkButton>
          {designIds.length <= mostToBuy && (
            <LinkButton href={`/buy?${named('design')}`}>{say('What to buy for them')}</LinkButton>
          )}
          {designIds.length > 1 && designIds.length <= mostTogether && (
            <LinkButton href={`/projects/together?${named('also')}`}>{say('Which together of these')}</LinkButton>
          )}
        </ButtonRow>
        {designIds.length > mostToBuy && (
          <p className="quiet">
            {sayParts(
              'The list to buy is made for at most {mostToBuy} designs at a time, and at most {mostTogether} are weighed against each other.',
              { mostToBuy, mostTogether },
            )}
          </p>
        )}
      </Section>
      <form action="/charts/bulk/preview" className={s.form} aria-label={say('Change the chosen charts')}>
        <input type="hidden" name="chosen" value={chosenId} />
        <Section title={say('Change them')} note={say('One thing at a time.')}>
          <fieldset className={s.changes}>
            <legend className="vh">{say('What changes')}</legend>
            <ChangeChoice what="home" label={say('They live somewhere else')} isFirst>
              <TextField
                name="home"
                label={say('New home')}
                hint={say('What is out stays out, and comes back to the new one.')}
                suggestions={places.map(({ label }) => label)}
                maxLength={100}
              />
            </ChangeChoice>
            <ChangeChoice what="add-theme" label={say('They get a theme')}>
              <div>
                <SelectField
                  name="axis"
                  label={say('Kind of theme')}
                  options={themeAxes.map((axis) => ({ value: axis, label: axisWords[axis] }))}
                />
                <TextField
                  name="theme"
                  label={say('Theme')}
                  suggestions={[...new Set(themes.map(({ label }) => label))]}
                  hint={say('A new one is made.')}
                  maxLength={100}
                />
              </div>
            </ChangeChoice>
            <ChangeChoice what="take-theme" label={say('A theme is taken off')}>
              <SelectField name="take" label={say('Theme to take off')} options={themes} none={say('choose')} />
            </ChangeChoice>
            <ChangeChoice what="stars" label={say('How much they are wished for')}>
              <SelectField
                name="stars"
                label={say('Stars')}
                hint={say('Of those that are wishes already.')}
                options={Array.from({ length: mostStars + 1 }, (_, stars) => ({
                  value: String(stars),
                  label: stars === 0 ? say('no stars') : counted(stars, 'star'),
                }))}
              />
            </ChangeChoice>
            {owners.length > 1 && (
              <ChangeChoice what="owner" label={say('They pass to another owner')}>
                <SelectField
                  name="to"
                  label={say('New owner')}
                  options={owners.map(({ id, name }) => ({ value: id, label: name }))}
                  none={say('choose')}
                />
              </ChangeChoice>
            )}
            <ChangeChoice what="gone" label={say('They are no longer held')}>
              <SelectField
                name="ending"
                label={say('Why')}
                hint={say('Their history stays.')}
                options={chartEndings.map((ending) => ({ value: ending, label: endingWords[ending] }))}
              />
            </ChangeChoice>
          </fieldset>
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
