/** The log, for whatever is bundled; what Node runs as it stands imports lines.mjs itself. */
export { log } from './lines.mjs'
