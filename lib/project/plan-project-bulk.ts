import type { ProjectStatus } from './life-cycle'

/** What many projects can be given at once; days are yyyy-mm-dd, null takes it off again. */
export type ProjectBulkChange =
  /** By which day they are due. What they were due for, an occasion, is then no longer what sets the day. */
  | { kind: 'due'; dueOn: string | null }
  /** When they are meant to be begun. */
  | { kind: 'planned'; plannedOn: string | null }
  | { kind: 'for-whom'; forWhom: string | null }
  /** How much they are wished for, 1 to 5. */
  | { kind: 'stars'; stars: number | null }

/** What such a change writes, and what its undo puts back. */
export type ProjectFacts = {
  dueOn: string | null
  occasionKey: string | null
  plannedOn: string | null
  forWhom: string | null
  stars: number | null
}

export type BulkProject = ProjectFacts & { id: string; status: ProjectStatus }

/** What becomes of one project. `over`: finished or given up, so nothing is planned of it any more. */
export type ProjectBulkLine = {
  id: string
  before: Partial<ProjectFacts>
  outcome: 'changes' | 'same' | 'over'
}

/** The columns a change writes. */
export function factsOf(change: ProjectBulkChange): Partial<ProjectFacts> {
  switch (change.kind) {
    case 'due':
      return { dueOn: change.dueOn, occasionKey: null }
    case 'planned':
      return { plannedOn: change.plannedOn }
    case 'for-whom':
      return { forWhom: change.forWhom }
    case 'stars':
      return { stars: change.stars }
  }
}

/** What a change would do, line by line, in the order of the projects. */
export function planProjectBulk(change: ProjectBulkChange, projects: readonly BulkProject[]): ProjectBulkLine[] {
  const after = factsOf(change)
  const names = Object.keys(after) as (keyof ProjectFacts)[]
  return projects.map((project): ProjectBulkLine => {
    const before = Object.fromEntries(names.map((name) => [name, project[name]])) as Partial<ProjectFacts>
    if (project.status === 'finished' || project.status === 'abandoned') return { id: project.id, before, outcome: 'over' }
    const isSame = names.every((name) => project[name] === after[name])
    return { id: project.id, before, outcome: isSame ? 'same' : 'changes' }
  })
}
