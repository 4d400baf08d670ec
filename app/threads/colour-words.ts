import { say, sayings } from '#language/say'
import type { LabCertainty } from '#lib/colour/lab'
import type { PatchCaution } from '#lib/colour/photo-colour'
import type { FamilyChoice } from '#lib/db/thread/list-threads'
import type { DifferenceGrade } from '#lib/thread/substitution'
import { givenName } from '#words/given'

export const roughWords = () => say('Colours from photos and screens are rough; daylight decides.')

export const certaintyWords: Record<LabCertainty, string> = sayings({
  measured: 'measured with an instrument',
  label: 'the maker’s own figure',
  guess: 'rough: from a photo, a screen, by eye',
})

/** A family as a choice and a heading. */
export const familyWord = (family: FamilyChoice): string => (family === 'unknown' ? say('colour not known') : givenName(family))

/** Why a patch is a poor one, and what to do. */
export function describePatchCaution(caution: PatchCaution): string {
  switch (caution) {
    case 'clipped':
      return say('The patch is too bright for the photo. Take one of its greyer parts, or a darker photo.')
    case 'dark':
      return say('The patch is too dark to go by. Take a lighter one, or a photo in more light.')
    case 'coloured':
      return say('The patch is far from grey in this photo: a coloured lamp, or not a grey. Daylight is better.')
  }
}

/** A difference in words. Common practice, no published source. */
export const gradeWords: Record<DifferenceGrade, string> = sayings({
  same: 'the same to the eye',
  'very-near': 'very near',
  usable: 'near: look first',
  'design-change': 'another colour',
})
