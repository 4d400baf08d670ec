import { say } from '#language/say'
import { chartMoves } from '#lib/db/chart/move-chart'
import type { ChartDetail } from '#lib/db/chart/queries'
import { chartEndings } from '#lib/db/chart/remove-chart'
import { isOut } from '#lib/stock/batch'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { PlaceLabelField } from '../_places/place-label-field'
import { moveChartAction, removeChartAction, restoreChartAction, returnChartAction } from './actions'
import { endingWords, moveWords } from './words'

const hiddenOf = ({ id, version }: ChartDetail) => ({ id, version: String(version) })

export const isChartOut = ({ home, current }: Pick<ChartDetail, 'home' | 'current'>): boolean =>
  isOut({ homePlaceId: home?.id ?? null, currentPlaceId: current?.id ?? null })

/** Put back, for a chart that is out. */
export function ReturnChartForm({ chart }: { chart: ChartDetail }) {
  if (!isChartOut(chart)) return null
  return (
    <Form
      action={returnChartAction}
      hidden={hiddenOf(chart)}
      submit={say('Put back in {label}', { label: chart.home?.label })}
      isInline
    />
  )
}

export function MoveChartForm({ chart, placeLabels }: { chart: ChartDetail; placeLabels: readonly string[] }) {
  return (
    <Form
      action={moveChartAction}
      hidden={hiddenOf(chart)}
      submit={say('Write it down')}
      submitKind="plain"
      label={say('Move the chart')}
      clearsWhenDone
    >
      <PlaceLabelField label={say('Where it goes')} placeLabels={placeLabels} maxLength={100} />
      <ChoiceField
        name="how"
        label={say('How')}
        options={chartMoves.map((value) => ({ value, ...moveWords[value] }))}
        defaultValue={chart.home === null ? 'home' : 'take'}
      />
      <TextField name="reason" label={say('Why')} maxLength={300} width="half" />
    </Form>
  )
}

export function RemoveChartDialog({ chart }: { chart: ChartDetail }) {
  return (
    <ConfirmDialog
      opener={say('Take it out of the larder')}
      title={say('Take {title} out of the larder?', { title: chart.title })}
      confirm={say('Take it out')}
      action={removeChartAction}
      hidden={hiddenOf(chart)}
    >
      <p>
        {say('{rest} Its history stays, and it can be brought back.', {
          rest:
            chart.copies > 1
              ? say('All {copies} copies go, with their designs.', { copies: chart.copies })
              : say('It goes with its designs.'),
        })}
      </p>
      <ChoiceField
        name="ending"
        label={say('Why')}
        options={chartEndings.map((value) => ({ value, label: endingWords[value] }))}
        defaultValue="passed on"
      />
      <TextField name="note" label={say('Note')} maxLength={300} />
    </ConfirmDialog>
  )
}

export function RestoreChartForm({ chart }: { chart: ChartDetail }) {
  return (
    <Form action={restoreChartAction} hidden={hiddenOf(chart)} submit={say('Undo: bring it back')} submitKind="plain" isInline />
  )
}
