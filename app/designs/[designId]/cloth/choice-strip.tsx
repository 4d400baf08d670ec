import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
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
      say('{finishing}{hasOwnMargins, select, yes {, own margins} other {}}: {margin}', {
        finishing: givenName(finishing),
        hasOwnMargins,
        margin: marginWords(choices.margins, unit),
      }),
      choices.over === null ? '' : say('worked {over}', { over: overWords(choices.over) }),
      across * down > 1 ? say('{across} × {down} motifs, {gapThreads} threads between', { across, down, gapThreads }) : '',
    ].filter(Boolean),
  )
  return (
    <FormStrip
      action={path}
      label={say('What it is cut for')}
      summary={summary}
      hidden={kept}
      clear={isChosen ? { href: path, label: say('As in Settings and on the chart') } : undefined}
    >
      <StripSelect
        name="finishing"
        label={say('Finished as')}
        value={said.finishing ? finishing : ''}
        any={say('{finishing}, as in Settings', { finishing: givenName(settings.finishing) })}
        options={listFinishings(settings)
          .filter(({ name }) => name !== settings.finishing)
          .map(({ name }) => ({ value: name, label: givenName(name) }))}
      />
      <StripSelect
        name="over"
        label={<Word of="over-two">{say('Worked over')}</Word>}
        value={choices.over === null ? '' : String(choices.over)}
        any={
          advised
            ? say('as the chart: {overCase, select, yes {two} other {one}}', { overCase: advised.over === 2 })
            : say('usual for the cloth')
        }
        options={[
          { value: '1', label: say('one') },
          { value: '2', label: say('two') },
        ]}
      />
      <StripText
        name="count"
        label={<Word of="count">{say('On another count')}</Word>}
        value={said.count ?? ''}
        placeholder="36"
      />
      {marginSides().map(([field, side, label]) => (
        <StripText
          key={field}
          name={field}
          label={label}
          value={said[field] ?? ''}
          placeholder={formatClothLength(choices.margins[side], unit)}
        />
      ))}
      <StripText name="across" label={say('Motifs across')} value={said.across ?? ''} placeholder="1" />
      <StripText name="down" label={say('Motifs down')} value={said.down ?? ''} placeholder="1" />
      <StripText name="gap" label={say('Threads between')} value={said.gap ?? ''} placeholder="0" />
    </FormStrip>
  )
}
