import { chartMoves } from '#lib/db/chart/move-chart'
import type { ChartDetail } from '#lib/db/chart/queries'
import { chartEndings } from '#lib/db/chart/remove-chart'
import { isOut } from '#lib/stock/batch'
import { ScanInto } from '#trade/scan-into'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { ChoiceField, TextField } from '#ui/field'
import { Form } from '#ui/form'
import { moveChartAction, removeChartAction, restoreChartAction, returnChartAction } from './actions'
import { endingWords, moveWords } from './words'

const hiddenOf = ({ id, version }: ChartDetail) => ({ id, version: String(version) })

export const isChartOut = ({ home, current }: Pick<ChartDetail, 'home' | 'current'>): boolean =>
  isOut({ homePlaceId: home?.id ?? null, currentPlaceId: current?.id ?? null })

/** Put back, for a chart that is out. */
export function ReturnChartForm({ chart }: { chart: ChartDetail }) {
  if (!isChartOut(chart)) return null
  return <Form action={returnChartAction} hidden={hiddenOf(chart)} submit={`Put back in ${chart.home?.label}`} isInline />
}

export function MoveChartForm({ chart, placeLabels }: { chart: ChartDetail; placeLabels: readonly string[] }) {
  return (
    <Form
      action={moveChartAction}
      hidden={hiddenOf(chart)}
      submit="Write it down"
      submitKind="plain"
      label="Move the chart"
      clearsWhenDone
    >
      <TextField
        name="placeLabel"
        label="Where it goes"
        hint="The label of a place; a new one is made"
        suggestions={placeLabels}
        maxLength={100}
        width="half"
        isRequired
      />
      <ScanInto name="placeLabel" />
      <ChoiceField
        name="how"
        label="How"
        options={chartMoves.map((value) => ({ value, ...moveWords[value] }))}
        defaultValue={chart.home === null ? 'home' : 'take'}
      />
      <TextField name="reason" label="Why" maxLength={300} width="half" />
    </Form>
  )
}

export function RemoveChartDialog({ chart }: { chart: ChartDetail }) {
  return (
    <ConfirmDialog
      opener="Take it out of the larder"
      title={`Take ${chart.title} out of the larder?`}
      confirm="Take it out"
      action={removeChartAction}
      hidden={hiddenOf(chart)}
    >
      <p>
        {chart.copies > 1 ? `All ${chart.copies} copies go, with their designs.` : 'It goes with its designs.'} Its history stays,
        and it can be brought back.
      </p>
      <ChoiceField
        name="ending"
        label="Why"
        options={chartEndings.map((value) => ({ value, label: endingWords[value] }))}
        defaultValue="passed on"
      />
      <TextField name="note" label="Note" maxLength={300} />
    </ConfirmDialog>
  )
}

export function RestoreChartForm({ chart }: { chart: ChartDetail }) {
  return <Form action={restoreChartAction} hidden={hiddenOf(chart)} submit="Undo: bring it back" submitKind="plain" isInline />
}
