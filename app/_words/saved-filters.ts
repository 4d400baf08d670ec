import { say } from '#language/say'
import type { FilterRefused } from '#lib/settings/saved-filters'

export function describeFilterRefusal(refusal: FilterRefused): string {
  switch (refusal.kind) {
    case 'name-taken':
      return say('There is one called {name} already. Give this one another name, or take that one away first.', {
        name: refusal.name,
      })
    case 'too-many':
      return say('No more than {most} are kept of one list. Take one away first.', { most: refusal.most })
    case 'no-such-filter':
      return say('{name} is not kept any more.', { name: refusal.name })
    case 'no-choice':
      return say('Nothing is chosen above the list, so there is nothing to keep.')
  }
}
