import { expect, it } from 'vitest'
import { chooseDesigns } from '#lib/db/planning/together/choose-designs'
import type { ChoiceWorld } from '#lib/planning/together/choice-world'
import knapsacks from './data/knapsack-mknap1.json'

// Source: C. C. Petersen, "Computational experience with variants of the Balas algorithm applied to the selection of R&D projects",
// Management Science 13(9), 1967, distributed as mknap1 in the OR-Library (J. E. Beasley, J. Opl Res. Soc. 41(11), 1990). Each item is a
// design with a piece of cloth to itself, or with cloth aside, each resource a thread: what is worth most within all of them.

const inch = 25_400
/** One profit of a set is in tenths. */
const tenths = 10
const unitStrandTenths = 1_000

it.each(knapsacks.problems.map((problem) => [problem.id, problem] as const))(
  'what is chosen of %s is worth its optimum',
  async (_id, { profits, weights, capacities, optimum }) => {
    const ways = [{ widthUm: inch, heightUm: inch, isTurned: false }]
    const world: ChoiceWorld = {
      designs: profits.map((profit, item) => ({
        id: `d${item}`,
        value: Math.round(profit * tenths),
        ...{ copies: 1, pin: 'may' as const },
        lists: [
          {
            listId: `l${item}`,
            needs: weights.flatMap((row, thread) => {
              const weight = row[item] as number
              return weight > 0 ? [{ threadId: `t${thread}`, strandTenths: weight * unitStrandTenths }] : []
            }),
          },
        ],
        ways: { [`p${item}`]: ways },
      })),
      pieces: profits.map((_, item) => ({ id: `p${item}`, widthUm: inch, heightUm: inch })),
      threads: new Map(
        capacities.map((capacity, thread) => [
          `t${thread}`,
          {
            ...{ lotsMatter: false, freeStrandTenths: capacity * unitStrandTenths, putUpStrandTenths: 1, priceMinor: null },
            lotsStrandTenths: [capacity * unitStrandTenths],
          },
        ]),
      ),
      gapUm: 0,
      buying: { kind: 'nothing' },
    }
    const proved = { isProved: true, value: Math.round(optimum * tenths) }
    expect((await chooseDesigns(world, { timeLimitSeconds: 50 })).choice).toMatchObject(proved)
    const aside = await chooseDesigns({ ...world, pieces: null }, { timeLimitSeconds: 50 })
    expect(aside.choice).toMatchObject(proved)
  },
)
