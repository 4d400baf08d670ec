import { type ProjectStatus, projectStatuses } from '#lib/project/life-cycle'
import type { ProjectDraft } from './drafts'
import type { RowReader } from './row-reader'

const statusAlsoMeans: Record<string, ProjectStatus> = {
  wish: 'wanted',
  wishlist: 'wanted',
  want: 'wanted',
  someday: 'wanted',
  gewunscht: 'wanted',
  'to do': 'planned',
  todo: 'planned',
  plan: 'planned',
  next: 'planned',
  geplant: 'planned',
  prevu: 'planned',
  'kitted up': 'kitted',
  bagged: 'kitted',
  ready: 'kitted',
  'in progress': 'stitching',
  wip: 'stitching',
  started: 'stitching',
  'under way': 'stitching',
  working: 'stitching',
  active: 'stitching',
  'in arbeit': 'stitching',
  'en cours': 'stitching',
  ufo: 'resting',
  'on hold': 'resting',
  paused: 'resting',
  ruht: 'resting',
  'en pause': 'resting',
  'stitching done': 'stitched',
  'to be framed': 'stitched',
  done: 'finished',
  complete: 'finished',
  completed: 'finished',
  ffo: 'finished',
  finish: 'finished',
  fertig: 'finished',
  fini: 'finished',
  termine: 'finished',
  'given up': 'abandoned',
  dropped: 'abandoned',
}

/** As many as the project's own form takes. */
const mostKits = 10_000
const mostSpares = 1_000

export function checkProject(row: RowReader): ProjectDraft {
  const startedOn = row.date('started')
  const finishedOn = row.date('finished')
  const hours = row.number('hours', { least: 0, most: 100_000 })
  if (startedOn !== null && finishedOn !== null && finishedOn < startedOn) {
    row.refuse('finished', 'dates-out-of-order', row.text('finished') ?? '', [startedOn])
  }
  return {
    design: row.required('design'),
    chart: row.text('chart'),
    list: row.text('list'),
    owner: row.required('owner'),
    cloth: row.text('cloth'),
    status: row.word('status', projectStatuses, statusAlsoMeans),
    kits: row.whole('quantity', { least: 1, most: mostKits }),
    spares: row.whole('spares', { most: mostSpares }),
    place: row.text('place'),
    forWhom: row.text('for'),
    startedOn,
    finishedOn,
    dueOn: row.date('due'),
    hoursTenths: hours === null ? null : Math.round(hours * 10),
    stitchesDone: row.whole('stitchesDone', { most: 100_000_000 }),
    finishing: row.text('finishing'),
    note: row.note(),
  }
}
