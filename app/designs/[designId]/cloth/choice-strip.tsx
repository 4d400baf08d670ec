import { formatClothLength } from '#language/lengths'
import type { AdvisedCloth } from '#lib/chart/design'
import { listFinishings } from '#lib/cloth/margins'
import type { Settings } from '#lib/settings/settings'
import { Word } from '#trade/word'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { listed } from '#words/amounts'
import { marginWords, overWords } from '#words/cloth-size'
import { givenName } from '#words/given'
import { type ClothAddress, marginSides } from './choices'

type ChoiceStripProps = { designId: string; address: ClothAddress; advised: AdvisedCloth | null; settings: Settings }

/** Finishing, margins, over one or two, a count to try, several motifs: each goes into the address. */
export function ChoiceStrip({ designId, address, advised, settings }: ChoiceStripProps) {
  const { choices, finishing, said, hasOwnMargins } = address
  const unit = settings.lengthUnit
  const { across, down, gapThreads } = choices.motifs
  const path = `/designs/${designId}/cloth`
  const isChosen = Object.keys(said).some((name) => name !== 'list')
  const kept = Object.fromEntries(['piece', 'list'].flatMap((name) => (said[name] ? [[name, said[name]]] : [])))
  const summary = listed(
    [
      `${finishing}${hasOwnMargins ? ', own margins' : ''}: ${marginWords(choices.margins, unit)}`,
      choices.over === null ? '' : `worked ${overWords(choices.over)}`,
      across * down > 1 ? `${across} × ${down} motifs, ${gapThreads} threads between` : '',
    ].filter(Boolean),
  )
  return (
    <FormStrip
      action={path}
      label="What it is cut for"
      summary={summary}
      hidden={kept}
      clear={isChosen ? { href: path, label: 'As in Settings and on the chart' } : undefined}
    >
      <StripSelect
        name="finishing"
        label="Finished as"
        value={said.finishing ? finishing : ''}
        any={`${settings.finishing}, as in Settings`}
        options={listFinishings(settings)
          .filter(({ name }) => name !== settings.finishing)
          .map(({ name }) => ({ value: name, label: givenName(name) }))}
      />
      <StripSelect
        name="over"
        label={<Word of="over-two">Worked over</Word>}
        value={choices.over === null ? '' : String(choices.over)}
        any={advised ? `as the chart: ${advised.over === 2 ? 'two' : 'one'}` : 'usual for the cloth'}
        options={[
          { value: '1', label: 'one' },
          { value: '2', label: 'two' },
        ]}
      />
      <StripText name="count" label={<Word of="count">On another count</Word>} value={said.count ?? ''} placeholder="36" />
      {marginSides.map(([field, side, label]) => (
        <StripText
          key={field}
          name={field}
          label={label.startsWith('Margin') ? label : `Margin ${label}`}
          value={said[field] ?? ''}
          placeholder={formatClothLength(choices.margins[side], unit)}
        />
      ))}
      <StripText name="across" label="Motifs across" value={said.across ?? ''} placeholder="1" />
      <StripText name="down" label="Motifs down" value={said.down ?? ''} placeholder="1" />
      <StripText name="gap" label="Threads between" value={said.gap ?? ''} placeholder="0" />
    </FormStrip>
  )
}
