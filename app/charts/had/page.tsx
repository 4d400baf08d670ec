import type { Metadata } from 'next'
import { findHadByCover, findHadByWords, type HadAnswer, type HadChart } from '#lib/db/merging/had-before'
import { PlaceLabel } from '#trade/place-label'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { Photo } from '#ui/photo'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { kindWords } from '../../_charts/words'
import { FindBox } from '../../_find/find-box'
import { askByPhotoAction } from './actions'
import s from './had.module.css'
import { hadQuerySchema } from './schema'
import { finishedWords, hadReasonWords, whereaboutsWords } from './words'

export const metadata: Metadata = { title: 'Have I bought this before?' }

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function HadPage({ searchParams }: Props) {
  const { q, photo } = hadQuerySchema.parse(await searchParams)
  const { owners } = await getViewer()
  const answer = q !== '' ? await findHadByWords(q) : photo.length > 0 ? await findHadByCover(photo) : null
  return (
    <>
      <PageHead title="Have I bought this before?" crumbs={[{ label: 'Charts', href: '/charts' }, { label: 'Bought before?' }]} />
      <div className={s.box}>
        <FindBox
          words={q}
          isFocused
          at="/charts/had"
          label="Title, a design in it, or its designer, as far as you remember"
          placeholder="rook snow, kettle …"
        />
      </div>
      {answer ? (
        <>
          <p className={s.verdict} role="status">
            {verdict(answer, photo.length > 0 && q === '')}
          </p>
          {answer.sure.length > 0 && <Charts charts={answer.sure} several={owners.length > 1} label="What it is" />}
          {answer.near.length > 0 && (
            <Section title={answer.sure.length > 0 ? 'Near it' : 'It may be one of these'} id="near">
              <Charts charts={answer.near} several={owners.length > 1} label="What comes near" />
            </Section>
          )}
        </>
      ) : (
        <p className={s.verdict}>
          A word or two will do, and slips are forgiven. Booklets are looked into, and charts passed on long ago are remembered.
        </p>
      )}
      <div className={s.photo}>
        <Form
          action={askByPhotoAction}
          submit="Look for this cover"
          pending="Looking"
          submitKind="plain"
          label="By a photo of the cover"
        >
          <FileField
            name="photo"
            label="Or a photo of its cover"
            accept="image/jpeg,image/png,image/webp"
            hint="Held straight over it, edge to edge. It is looked at and not kept."
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
      ? `Yes: ${counted(copies, 'copy')} held.`
      : `Yes: ${counted(held.length, 'chart')}, ${counted(copies, 'copy')} in all.`
  }
  if (sure.length > 0) return 'Had once, and held no more.'
  const among = isByPhoto ? ` among the ${counted(covers, 'chart')} with a cover on record` : ''
  const [nearest] = near
  if (nearest && nearest.left === null && nearest.reason.kind !== 'words' && nearest.reason.kind !== 'designer')
    return `Likely yes: ${nearest.title}, ${counted(nearest.copies, 'copy')}.`
  if (near.length > 0) return `Not under that ${isByPhoto ? 'cover' : 'title'}${among}, but look at these.`
  return isByPhoto && covers === 0
    ? 'No chart has a cover on record yet, so a photo finds nothing. Ask by the title.'
    : `No: nothing like it is held${among}.`
}

function Charts({ charts, several, label }: { charts: readonly HadChart[]; several: boolean; label: string }) {
  return (
    <ul className={s.list} aria-label={label}>
      {charts.map((chart) => {
        const finished = finishedWords(chart.finishedOn)
        const about = [midSentence(kindWords[chart.kind]), chart.edition, several && `of ${chart.ownerName}`].filter(Boolean)
        return (
          <li key={chart.chartId} className={s.row}>
            {chart.coverFile && (
              <Photo file={chart.coverFile} look={undefined} alt="" room={{ widthPx: 56, heightPx: 72 }} isCropped />
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
