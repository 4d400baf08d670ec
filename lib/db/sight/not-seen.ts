/** Something was to be written that its writer does not see: another owner's goods, named by an id nobody gave them. */
export class NotSeen extends Error {
  constructor(readonly model: string) {
    super(`${model}: not among what may be seen`)
  }
}

/** The program is bundled in parts that each have their own class. */
export const isNotSeen = (error: unknown): boolean => error instanceof Error && /: not among what may be seen$/.test(error.message)
