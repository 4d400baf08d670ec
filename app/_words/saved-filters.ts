import type { FilterRefused } from '#lib/settings/saved-filters'

export function describeFilterRefusal(refusal: FilterRefused): string {
  switch (refusal.kind) {
    case 'name-taken':
      return `There is one called ${refusal.name} already. Give this one another name, or take that one away first.`
    case 'too-many':
      return `No more than ${refusal.most} are kept of one list. Take one away first.`
    case 'no-such-filter':
      return `${refusal.name} is not kept any more.`
    case 'no-choice':
      return 'Nothing is chosen above the list, so there is nothing to keep.'
  }
}
