import type { Metadata } from 'next'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readThingsToLend, readWorkToSend, type ThingToLend } from '#lib/db/loan/read-things'
import { listPlaceOptions } from '#lib/db/place/queries'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { CheckField, FieldRow, NumberField, SelectField, TextArea } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { getViewer } from '#viewer/viewer'
import { calendarDay } from '#words/date'
import { givenName } from '#words/given'
import { sendAction } from '../actions'
import { FindThings } from '../find-things'
import s from '../loans.module.css'
import { thingsQuerySchema } from '../schema'
import { TermsFields } from '../terms-fields'
import { ThingsFields } from '../things-fields'

export const generateMetadata = (): Metadata => ({ title: say('Send away') })

const whoOptions = () => [
  { value: 'framer', label: say('A framer') },
  { value: 'finisher', label: say('A finisher') },
  { value: 'model stitcher', label: say('A model stitcher') },
  { value: 'person', label: say('Somebody else') },
]

export default async function SendPage({ searchParams }: { searchParams: Promise<Record<string, unknown>> }) {
  const query = thingsQuerySchema.parse(await searchParams)
  const today = calendarDay(new Date())
  const [{ ownerIds, settings }, work, chosen, places] = await Promise.all([
    getViewer(),
    query.project ? readWorkToSend(query.project) : null,
    readThingsToLend({ charts: query.chart, batches: query.batch, cloth: query.cloth, notions: query.notion }),
    listPlaceOptions(),
  ])
  const isDone = work !== null && (work.status === 'stitched' || work.status === 'finished')
  const things = [...(work?.goods ?? []), ...chosen.filter(({ thing }) => !work?.goods.some((one) => one.thing.id === thing.id))]
  const ownerId = work?.owner.id ?? things[0]?.owner.id ?? ownerIds[0]
  // A stitched piece goes as it is; a kit goes with all it takes to stitch it.
  const isTicked = ({ thing }: ThingToLend) =>
    !isDone || thing.noun === 'cloth' || chosen.some((one) => one.thing.id === thing.id)
  return (
    <>
      <PageHead
        title={say('Send away')}
        crumbs={[{ label: say('Out and back'), href: '/loans' }, { label: say('Send away') }]}
        byline={say('To be framed, made up or stitched: what goes, to whom, and what goes along.')}
      />
      {!ownerId ? (
        <Empty title={say('Whose is it?')} actions={<LinkButton href="/settings">{say('Settings')}</LinkButton>}>
          {say('There is no owner yet. Add one in the settings first: your own stash, or the shop.')}
        </Empty>
      ) : (
        <>
          {work?.isAway && (
            <Notice
              kind="refusal"
              title={say('{title} is out already: in {placeLabel}.', { title: work.title, placeLabel: work.placeLabel })}
              actions={<LinkButton href="/loans">{say('Out and back')}</LinkButton>}
            />
          )}
          {work && !work.isAway && (
            <p className={s.intro}>
              {sayParts('{title}, {status}{rest}. The work itself goes; tick what goes along.', {
                title: (
                  <Link href={`/projects/${work.id}`} className="title">
                    {work.title}
                  </Link>
                ),
                status: givenName(work.status),
                rest: work.placeLabel && say(', now in {placeLabel}', { placeLabel: work.placeLabel }),
              })}
            </p>
          )}
          {!work?.isAway && (
            <Form
              action={sendAction}
              submit={say('Send it')}
              hidden={{ ownerId, ...(work && { projectId: work.id, projectVersion: String(work.version) }) }}
              actions={<LinkButton href="/loans">{say('Leave it')}</LinkButton>}
            >
              {things.length > 0 && <ThingsFields things={things} isTicked={isTicked} />}
              <SelectField
                name="withKind"
                label={say('What they are')}
                hint={say('For a name that is new here')}
                options={whoOptions()}
                defaultValue={isDone ? 'framer' : 'model stitcher'}
                width="half"
              />
              <TermsFields
                places={places}
                today={today}
                who={say('To whom')}
                isDueNeeded={false}
                reasonHint={isDone ? say('To be framed, made up as a pillow') : say('Shop model for the spring')}
              />
              <FieldRow>
                <NumberField
                  name="price"
                  label={say('Price agreed')}
                  unit={settings.currency || undefined}
                  hint={say('Or the thread credit it is worth')}
                />
              </FieldRow>
              <TextArea
                name="others"
                label={say('What else goes along')}
                hint={say('One a line: 2 needles, glass, the shop’s own mount')}
                rows={2}
              />
              <TextArea name="note" label={say('Note')} rows={2} />
              {things.some(({ thing }) => thing.noun === 'chart') && (
                <CheckField
                  name="acceptsClash"
                  label={say('All the same')}
                  hint={say('Tick it when the chart is to go although another project wants it meanwhile')}
                />
              )}
            </Form>
          )}
          <FindThings
            page="/loans/send"
            query={query}
            ownerIds={[ownerId]}
            title={work || things.length > 0 ? say('Add another thing') : say('What goes')}
          />
          {!work && (
            <p className={s.aside}>
              {sayParts(
                'To send a project’s work, open <link>the project</link> or <link2>the finish</link2> and press “Send away” there.',
                {
                  link: (words) => <Link href="/projects">{words}</Link>,
                  link2: (words) => <Link href="/finishes">{words}</Link>,
                },
              )}
            </p>
          )}
        </>
      )}
    </>
  )
}
