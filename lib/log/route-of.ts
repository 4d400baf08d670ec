/** The address of a request as it may be written; what Node runs as it stands imports cleaned.mjs itself. */
export { routeOf } from './cleaned.mjs'
