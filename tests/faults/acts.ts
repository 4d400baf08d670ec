import type { Database } from '#lib/db/client'
import { seededRandom } from '#seed/random'
import { type ActName, acts } from '../database/larder-acts'
import type { SmallWorld } from '../database/small-world'

/** Everything people do with a larder, in an order that `seed` decides, one act after another without end. */
export async function* everything(prisma: Database['prisma'], world: SmallWorld, seed: string): AsyncGenerator<void, void, void> {
  const random = seededRandom(seed)
  const names = Object.keys(acts) as ActName[]
  for (;;) {
    const chance = {
      ...{ first: random.int(0, 997), second: random.int(0, 991), many: random.int(0, 3) },
      ...{ yes: random.chance(0.5), other: random.chance(0.5) },
    }
    await acts[random.pick(names)]({ prisma, world, ...chance })
    yield
  }
}
