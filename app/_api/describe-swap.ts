import type { z } from 'zod'
import type { SwapStock, SwapThread, SwapVerdict } from '#lib/thread/substitution'
import type { ThreadRef } from './cover'
import type { getDesignSwaps } from './swaps'

type Judged = NonNullable<z.input<typeof getDesignSwaps.answer>['lines'][number]['swap']>
type Figures = Judged['findings'][number]['figures']

/** Figures as they are, those of a nearest colour among them, rounded no further than to a thousandth. */
function figuresOf(facts: Record<string, unknown>): Figures {
  const figures: Figures = {}
  for (const [name, value] of Object.entries(facts)) {
    if (typeof value === 'number') figures[name] = Number(value.toFixed(3))
    else if (typeof value === 'string' || typeof value === 'boolean' || value === null) figures[name] = value
    else if (typeof value === 'object') Object.assign(figures, figuresOf(value as Record<string, unknown>))
  }
  return figures
}

/** One judged stand-in as the API gives it. */
export function describeSwap(
  thread: SwapThread,
  stock: SwapStock,
  verdict: SwapVerdict,
  threadOf: (threadId: string) => ThreadRef,
): Judged {
  return {
    thread: threadOf(thread.threadId),
    isAccepted: verdict.isAccepted,
    deltaE00: verdict.deltaE === null ? null : Number(verdict.deltaE.toFixed(3)),
    needStrandTenths: verdict.needStrandTenths,
    freeStrandTenths: stock.freeStrandTenths,
    findings: verdict.findings.map(({ rule, kind, weight, ...facts }) => ({ rule, kind, weight, figures: figuresOf(facts) })),
  }
}
