import type { ReactNode } from 'react'
import { say } from '#language/say'
import { Meaning } from '#ui/meaning'
import { midSentence } from '#words/capital'
import { type GlossaryKey, glossary, glossaryHref } from '#words/glossary'
import s from './word.module.css'

/** A word of the trade on a label, with its meaning to be had where it stands. */
export function Word({ of, children }: { of: GlossaryKey; children: ReactNode }) {
  return (
    <Meaning href={glossaryHref(of)} says={glossary()[of].says}>
      {children}
    </Meaning>
  )
}

/** The words a table is headed by, said once over it: on a phone its heads are not in sight. */
export function WordsUsed({ of }: { of: readonly GlossaryKey[] }) {
  return (
    <p className={s.used}>
      <span>{say('Words used here:')}</span>{' '}
      {of.map((key) => (
        <Word key={key} of={key}>
          {midSentence(glossary()[key].word)}
        </Word>
      ))}
    </p>
  )
}
