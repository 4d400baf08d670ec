import { say } from '#language/say'
import { familyChoices, type ThreadListing } from '#lib/db/thread/list-threads'
import { stockStates } from '#lib/db/thread/summarise-stock'
import { StripSelect, StripText } from '#ui/form-strip'
import { lineTitle } from '#words/thread'
import type { ThreadChoices } from '../_listing/thread-filter'
import { familyWord } from './colour-words'
import { stateWords } from './words'

type NarrowThreadsProps = {
  choices: Pick<ThreadChoices, 'maker' | 'line' | 'family' | 'place' | 'stock' | 'text'>
  listing: Pick<ThreadListing, 'lines' | 'counts'>
  places: readonly { id: string; pathText: string }[]
}

/** The choices of a list of threads, each with how many it would leave; they go into a form strip. */
export function NarrowThreads({ choices, listing: { lines, counts }, places }: NarrowThreadsProps) {
  const makers = [...new Map(lines.map((line) => [line.makerId, line.makerName]))]
  return (
    <>
      <StripSelect
        name="maker"
        label={say('Maker')}
        value={choices.maker}
        any={say('any')}
        options={makers.map(([id, name]) => ({ value: id, label: `${name} (${counts.makers.get(id) ?? 0})` }))}
      />
      <StripSelect
        name="line"
        label={say('Line')}
        value={choices.line}
        any={say('any')}
        options={lines
          .filter((line) => choices.maker === '' || line.makerId === choices.maker || line.id === choices.line)
          .map((line) => ({ value: line.id, label: `${lineTitle(line)} (${counts.lines.get(line.id) ?? 0})` }))}
      />
      <StripSelect
        name="family"
        label={say('Colour family')}
        value={choices.family}
        any={say('any')}
        options={familyChoices.map((family) => ({
          value: family,
          label: `${familyWord(family)} (${counts.families[family]})`,
        }))}
      />
      <StripSelect
        name="place"
        label={say('Place')}
        value={choices.place}
        any={say('anywhere')}
        options={places.map((place) => ({ value: place.id, label: place.pathText }))}
      />
      <StripSelect
        name="stock"
        label={say('Stock')}
        value={choices.stock}
        any={say('any')}
        options={stockStates.map((state) => ({ value: state, label: `${stateWords[state]} (${counts.states[state]})` }))}
      />
      <StripText name="text" label={say('Code or name')} value={choices.text} placeholder="0017" />
    </>
  )
}
