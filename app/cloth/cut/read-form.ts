import type { AskedCut } from '#lib/coverage/asked-cut'
import { type CutChoices, readCutChoices } from '#lib/db/cut-plan/read-cut-choices'
import { type CutSources, readCutSources } from '#lib/db/cut-plan/read-cut-sources'
import { getViewer, type Viewer } from '#viewer/viewer'
import { askedOf, type CutForm, type CutProblems, type Fields, readCutForm, sourceIds } from './choices'

export type ReadForm = {
  viewer: Viewer
  form: CutForm
  sources: CutSources
  asked: AskedCut | null
  problems: CutProblems
  /** What there is to cut it from; null while there is nothing to ask. */
  choices: CutChoices | null
}

/** The form as it stands in its address or as it was sent, held against what is on record. */
export async function readForm(fields: Fields): Promise<ReadForm> {
  const viewer = await getViewer()
  const { settings, ownerIds } = viewer
  const form = readCutForm(fields, settings.lengthUnit)
  const sources = await readCutSources(sourceIds(form))
  const { asked, problems } = askedOf(form, sources, settings)
  const choices = asked && (await readCutChoices(asked, { ownerIds, settings }))
  return { viewer, form, sources, asked, problems, choices }
}
