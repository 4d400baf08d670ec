import type { ProblemKind } from '#api/problem'
import type { KnockRefusal } from '#lib/access/admit'

/** How each refusal at the door is answered, as a problem to programs and as a sentence to people. */
export const refusals: Record<KnockRefusal, { problem: ProblemKind; sentence: string }> = {
  'foreign-host': {
    problem: 'not-for-this-host',
    sentence:
      'This collection is open to its own machine alone, and was asked for by another name. Open it there as http://127.0.0.1 with its port. To let others in, make a keeper’s account first: npm run account -- --add NAME --role keeper',
  },
  forwarded: {
    problem: 'not-for-this-host',
    sentence:
      'This collection is open to its own machine alone, and was asked for through another server. To let others in, make a keeper’s account first: npm run account -- --add NAME --role keeper',
  },
  'no-keeper': {
    problem: 'not-open',
    sentence:
      'This collection is open to a network and has no account, so nobody is let in. Make a keeper’s account first: npm run account -- --add NAME --role keeper',
  },
  'other-site': { problem: 'cross-origin', sentence: 'Only this server’s own pages may do that.' },
  'too-large': { problem: 'too-large', sentence: 'What was sent is larger than anything that is taken here.' },
  'not-signed-in': { problem: 'sign-in-needed', sentence: 'Sign in first.' },
  'bad-token': { problem: 'sign-in-needed', sentence: 'The token is none of those given out, or it was taken back or is over.' },
}
