import type { z } from 'zod'
import type { ProblemError } from './problem'

/** More than a person reads at once; a list with a thousand bad rows is told of by its first. */
const mostErrors = 50

const kindWords: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
  null: 'null',
  nan: 'a number',
}
const kindOf = (expected: string): string => kindWords[expected] ?? expected

const unitOf = (origin: string): string =>
  origin === 'string' ? ' characters' : origin === 'array' || origin === 'set' ? ' entries' : ''

/** What is wrong with one field, and what would be accepted. */
function describeIssue(issue: z.core.$ZodIssue): Pick<ProblemError, 'message' | 'accepted'> {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? { message: 'It is missing.', accepted: kindOf(issue.expected) }
        : { message: `It is not ${kindOf(issue.expected)}.`, accepted: kindOf(issue.expected) }
    case 'invalid_value':
      return {
        message: issue.input === undefined ? 'It is missing.' : 'It is none of the values taken.',
        accepted: issue.values.map((value) => String(value)).join(', '),
      }
    case 'too_small':
      return {
        message: 'It is too small.',
        accepted: `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${unitOf(issue.origin)}`,
      }
    case 'too_big':
      return {
        message: 'It is too large.',
        accepted: `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${unitOf(issue.origin)}`,
      }
    case 'not_multiple_of':
      return { message: 'It is not on a step.', accepted: `a multiple of ${issue.divisor}` }
    case 'invalid_format':
      return { message: 'It is not written as expected.', accepted: issue.format }
    case 'invalid_union':
      return { message: 'It is none of the forms taken.' }
    case 'custom': {
      const accepted: unknown = issue.params?.accepted
      return typeof accepted === 'string' ? { message: issue.message, accepted } : { message: issue.message }
    }
    default:
      return { message: 'It is not what is taken here.' }
  }
}

const pointerOf = (path: readonly PropertyKey[]): string =>
  path.map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')

/** The errors of a failed check, those of a body by JSON pointer, those of a query or path by the parameter's name. */
export function describeIssues(issues: readonly z.core.$ZodIssue[], where: 'body' | 'parameters'): ProblemError[] {
  const errors: ProblemError[] = []
  const add = (path: readonly PropertyKey[], error: Pick<ProblemError, 'message' | 'accepted'>) =>
    errors.push(where === 'body' ? { field: pointerOf(path), ...error } : { parameter: String(path[0] ?? ''), ...error })
  for (const issue of issues) {
    if (errors.length >= mostErrors) break
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys.slice(0, mostErrors))
        add([...issue.path, key.slice(0, 100)], {
          message: where === 'body' ? 'There is no such field.' : 'There is no such parameter.',
        })
    } else add(issue.path, describeIssue(issue))
  }
  return errors.slice(0, mostErrors)
}
