import type { ChartDetail } from '#lib/db/chart/queries'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { removeCoverAction, setCoverAction } from './actions'
import s from './files.module.css'

type ChartCoverProps = {
  chart: Pick<ChartDetail, 'id' | 'version' | 'title' | 'isGone'>
  coverFile: string | null
  thumb: string | null
}

/** The chart's cover, and the form that gives it one. */
export function ChartCover({ chart, coverFile, thumb }: ChartCoverProps) {
  const hidden = { chartId: chart.id, version: String(chart.version) }
  return (
    <div className={s.cover}>
      {coverFile && thumb && (
        <a href={`/photos/${coverFile}`}>
          {/* biome-ignore lint/performance/noImgElement: a small file of this machine */}
          <img src={`/photos/${thumb}`} alt={`Cover of ${chart.title}`} />
        </a>
      )}
      {!chart.isGone && (
        <Unfold label={coverFile ? 'Another cover' : 'Add its cover'}>
          <Form
            action={setCoverAction}
            submit="Take it as the cover"
            pending="Sending"
            label="The chart’s cover"
            hidden={hidden}
            clearsWhenDone
          >
            <FileField
              name="file"
              label="A photo or picture of the cover"
              hint="JPEG, PNG or WebP"
              accept="image/jpeg,image/png,image/webp"
              isRequired
            />
          </Form>
          {coverFile && (
            <Form action={removeCoverAction} submit="Take the cover off" submitKind="quiet" hidden={hidden} isInline />
          )}
        </Unfold>
      )}
    </div>
  )
}
