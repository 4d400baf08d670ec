export const labelNouns = ['place', 'chart', 'batch', 'cloth', 'project'] as const
export type LabelNoun = (typeof labelNouns)[number]

/** What stands on a label, and what its code leads to. */
export type Label = {
  noun: LabelNoun
  thingId: string
  /** As large as there is room for. */
  title: string
  /** Small, below it; may be empty. */
  note: string
  /** The page of the thing: /places/… */
  path: string
}

/** The words of a label, as they are kept when it was printed. */
export const labelText = ({ title, note }: Pick<Label, 'title' | 'note'>): string => `${title}\n${note}`

export const labelKey = ({ noun, thingId }: Pick<Label, 'noun' | 'thingId'>): string => `${noun} ${thingId}`

/**
 * The labels that are to be printed again: those never printed, and those that say something else now.
 *
 * @param printed  by `labelKey`, what was printed the last time
 */
export const changedLabels = (labels: readonly Label[], printed: ReadonlyMap<string, string>): Label[] =>
  labels.filter((label) => printed.get(labelKey(label)) !== labelText(label))
