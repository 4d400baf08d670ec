/** The way of a batch of kits, in its order. */
export const kitSteps = ['reserved', 'pulled', 'cut', 'packed', 'checked', 'sealed'] as const
export type KitStep = (typeof kitSteps)[number]

/** How many kits are so far. `packed` counts those that are checked and sealed too, and so on. */
export type KitProgress = { copies: number; done: Readonly<Record<KitStep, number>> }

export type KitStepState = 'not begun' | 'begun' | 'done'

export const stateOfStep = ({ copies, done }: KitProgress, step: KitStep): KitStepState =>
  done[step] === 0 ? 'not begun' : done[step] < copies ? 'begun' : 'done'

/**
 * How far a batch of kits is. What is packed was pulled and cut, and what is pulled was reserved, whatever was written down on the way;
 * cloth is cut whether or not thread is pulled.
 */
export function progressOf(copies: number, counted: Readonly<Record<KitStep, number>>): KitProgress {
  const most = (...counts: number[]) => Math.min(copies, Math.max(...counts))
  const sealed = most(counted.sealed)
  const checked = most(counted.checked, sealed)
  const packed = most(counted.packed, checked)
  const pulled = most(counted.pulled, packed)
  return {
    copies,
    done: { reserved: most(counted.reserved, pulled), pulled, cut: most(counted.cut, packed), packed, checked, sealed },
  }
}

/** What to do next: the first step that is not done for all kits; null once all are sealed. */
export const nextStep = (progress: KitProgress): KitStep | null =>
  kitSteps.find((step) => progress.done[step] < progress.copies) ?? null
