import { say } from '#language/say'
import type { ProjectRow } from '#lib/db/project/queries'
import { counted } from '#words/amounts'

/** "3,000 of 8,240 stitches", as far as each is known. */
export function stitchWords({ stitchesDone, stitchesTotal }: Pick<ProjectRow, 'stitchesDone' | 'stitchesTotal'>): string | null {
  if (stitchesTotal !== null)
    return say('{stitchesDone, number} of {stitchesTotal, plural, one {# stitch} other {# stitches}}', {
      stitchesDone,
      stitchesTotal,
    })
  return stitchesDone > 0 ? counted(stitchesDone, 'stitch') : null
}

/** How far it has come, from 0 to 1; undefined when nobody can say. */
export function fractionDone({ stitchesDone, stitchesTotal }: Pick<ProjectRow, 'stitchesDone' | 'stitchesTotal'>) {
  return stitchesTotal ? Math.min(1, stitchesDone / stitchesTotal) : undefined
}
