import { isPeople, type PlaceKind } from './place'

/** What it means that a thing is put somewhere with no word of why: taken there for a while, or to live there from now on. */
export type DropMeaning = 'take' | 'home'

/** Bags and rings are what things are carried in, and people have them for a while; furniture is where things live. */
export const dropMeans = (kind: PlaceKind): DropMeaning => (kind === 'bag' || kind === 'ring' || isPeople(kind) ? 'take' : 'home')
