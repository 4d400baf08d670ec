import { say } from '#language/say'
import type { ChartDetail } from '#lib/db/chart/queries'
import type { Cover } from '#lib/db/chart/read-covers'
import { Photo } from '#trade/photo'
import { FileField } from '#ui/field'
import { Form } from '#ui/form'
import { Unfold } from '#ui/unfold'
import { removeCoverAction, setCoverAction } from './actions'
import s from './files.module.css'

type ChartCoverProps = {
  chart: Pick<ChartDetail, 'id' | 'version' | 'title' | 'isGone'>
  cover: Cover | undefined
}

const coverRoom = { widthPx: 224, heightPx: 288 }

/** The chart's cover, and the form that gives it one. */
export function ChartCover({ chart, cover }: ChartCoverProps) {
  const hidden = { chartId: chart.id, version: String(chart.version) }
  return (
    <div className={s.cover}>
      {cover && (
        <a href={`/photos/${cover.file}`}>
          <Photo {...cover} alt={say('Cover of {title}', { title: chart.title })} room={coverRoom} isLazy={false} />
        </a>
      )}
      {!chart.isGone && (
        <Unfold label={cover ? say('Another cover') : say('Add its cover')}>
          <Form
            action={setCoverAction}
            submit={say('Take it as the cover')}
            pending={say('Sending')}
            label={say('The chart’s cover')}
            hidden={hidden}
            clearsWhenDone
          >
            <FileField
              name="file"
              label={say('A photo or picture of the cover')}
              hint={say('JPEG, PNG or WebP')}
              accept="image/jpeg,image/png,image/webp"
              isRequired
            />
          </Form>
          {cover && (
            <Form action={removeCoverAction} submit={say('Take the cover off')} submitKind="quiet" hidden={hidden} isInline />
          )}
        </Unfold>
      )}
    </div>
  )
}
