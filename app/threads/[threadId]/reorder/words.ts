import { say } from '#language/say'
import type { RuleRefused } from '#lib/db/reorder/rules'

/** Why a rule was left as it was. */
export function describeRuleRefusal(refusal: RuleRefused): string {
  switch (refusal.kind) {
    case 'changed-meanwhile':
      return say('Somebody changed this rule while you were looking. Open the page again and look before you repeat it.')
    case 'no-such-owner':
      return say('Nobody of that name is on record. Choose an owner from the list.')
    case 'no-such-thread':
      return say('This thread was removed meanwhile.')
  }
}

/** Hundredths as a figure: 580 is "5.8". */
export const inHundredths = (hundredths: number): string => String(hundredths / 100)
