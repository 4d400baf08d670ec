import type { Metadata } from 'next'
import { say } from '#language/say'
import { findHadByCover, findHadByWords, type HadAnswer, type HadChart } from '#lib/db/merging/had-before'
import { readLooks } from '#lib/db/photo/photo-looks'
import { Photo } from '#trade/photo'
import { PlaceLabel } from '#trade/place-label'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { kindWords } from '../../_charts/words'
import { FindBox } from '../../_find/find-box'
import { askByPhotoAction } from './actions'
import s from './had.module.css'
import { hadQuerySchema } from './schema'
import { finishedWords, hadReasonWords, whereaboutsWords } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Have I bought this before?') })

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function HadPage({ searchParams }: Props) {
  const { q, photo } = hadQuerySchema.parse(await searchParams)
  const { owners } = await getViewer()
  const answer = q !== '' ? await findHadByWords(q) : photo.length > 0 ? await findHadByCover(photo) : null
  return (
    <>
      <PageHead
        title={say('Have I bought this before?')}
        crumbs={[{ label: say('Charts'), href: '/charts' }, { label: say('Bought before?') }]}
      />
      <div className={s.box}>
        <FindBox
          words={q}
          isFocused
          at="/charts/had"
          label={say('Title, a design in it, or its designer, as far as you remember')}
          placeholder={say('rook snow, kettle …')}
        />
      </div>
      {answer ? (
        <>
          <p className={s.verdict} role="status">
            {verdict(answer, photo.length > 0 && q === '')}
          </p>
          {answer.sure.length > 0 && <Charts charts={answer.sure} several={owners.length > 1} label={say('What it is')} />}
          {answer.near.length > 0 && (
            <Section title={answer.sure.length > 0 ? say('Near it') : say('It may be one of these')} id="near">
              <Charts charts={answer.near} several={owners.length > 1} label={say('What comes near')} />
            </Section>
          )}
        </>
      ) : (
        <p className={s.verdict}>
          {say(
            'A word or two will do, and slips are forgiven. Booklets are looked into, and charts passed on long ago are remembered.',
          )}
        </p>
      )}
      <div className={s.photo}>
        <Form
          action={askByPhotoAction}
          submit={say('Look for this cover')}
          pending={say('Looking')}
          submitKind="plain"
          label={say('By a photo of the cover')}
        >
          <FileField
            name="photo"
            label={say('Or a photo of its cover')}
            accept="image/jpeg,image/png,image/webp"
            hint={say('Held straight over it, edge to edge. It is looked at and not kept.')}
          />
        </Form>
      </div>
    </>
  )
}

function verdict({ sure, near, covers }: HadAnswer, isByPhoto: boolean): string {
  const held = sure.filter(({ left }) => left === null)
  if (held.length > 0) {
    const copies = held.reduce((sum, chart) => sum + chart.copies, 0)
    return held.length === 1
      ? say('Yes: {copies, plural, one {# copy} other {# copies}} held.', { copies })
      : say('Yes: {held, plural, one {# chart} other {# charts}}, {copies, plural, one {# copy} other {# copies}} in all.', {
          held: held.length,
          copies,
        })
  }
  if (sure.length > 0) return say('Had once, and held no more.')
  const among = isByPhoto
    ? say(' among the {covers, plural, one {# chart} other {# charts}} with a cover on record', { covers })
    : ''
  const [nearest] = near
  if (nearest && nearest.left === null && nearest.reason.kind !== 'words' && nearest.reason.kind !== 'designer')
    return say('Likely yes: {title}, {copies, plural, one {# copy} other {# copies}}.', {
      title: nearest.title,
      copies: nearest.copies,
    })
  if (near.length > 0)
    return say('Not under that {isByPhoto, select, yes {cover} other {title}}{among}, but look at these.', { isByPhoto, among })
  return isByPhoto && covers === 0
    ? say('No chart has a cover on record yet, so a photo finds nothing. Ask by the title.')
    : say('No: nothing like it is held{among}.', { among })
}

async function Charts({ charts, several, label }: { charts: readonly HadChart[]; several: boolean; label: string }) {
  const looks = await readLooks(charts.map(({ coverFile }) => coverFile))
  return (
    <ul className={s.list} aria-label={label}>
      {charts.map((chart) => {
        const finished = finishedWords(chart.finishedOn)
        const about = [
          midSentence(kindWords[chart.kind]),
          chart.edition,
          several && say('of {ownerName}', { ownerName: chart.ownerName }),
        ].filter(Boolean)
        return (
          <li key={chart.chartId} className={s.row}>
            {chart.coverFile && (
              <Photo
                file={chart.coverFile}
                look={looks.get(chart.coverFile)}
                alt=""
                room={{ widthPx: 56, heightPx: 72 }}
                isCropped
              />
            )}
            <span className={s.words}>
              <Link
                className={`title ${s.title}`}
                href={chart.designId ? `/designs/${chart.designId}` : `/charts/${chart.chartId}`}
              >
                {chart.title}
              </Link>
              <span className={s.by}>
                {[chart.designers.length > 0 && listed(chart.designers), about.join(', ')].filter(Boolean).join(' · ')}
              </span>
              <strong className={s.where}>{[whereaboutsWords(chart), finished].filter(Boolean).join('; ')}</strong>
              <span className={s.why}>{hadReasonWords(chart.reason)}</span>
            </span>
            {chart.place && chart.left === null && (
              <span className={s.place}>
                <PlaceLabel label={chart.place.label} href={`/places/${chart.place.id}`} />
              </span>
            )}
          </li>
        )
      })}
    </ul>
  )
}
