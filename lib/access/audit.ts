/** What the log of who did what tells apart. */
export const auditKinds = ['sign-in', 'refused', 'sign-out', 'account', 'change'] as const
export type AuditKind = (typeof auditKinds)[number]

/** What was done, in a few words of its kind. */
export const auditWhats = {
  'sign-in': ['password', 'passkey'],
  refused: ['wrong-password', 'wrong-passkey', 'too-many-tries', 'other-site', 'not-allowed'],
  'sign-out': ['here', 'other-device', 'all-devices'],
  account: [
    'added',
    'changed',
    'closed',
    'opened-again',
    'password-set',
    'passkey-added',
    'passkey-removed',
    'token-added',
    'token-removed',
  ],
  change: ['written'],
} as const satisfies Record<AuditKind, readonly string[]>

export type AuditFact = {
  [Kind in AuditKind]: { kind: Kind; what: (typeof auditWhats)[Kind][number]; detail?: Record<string, unknown> }
}[AuditKind]

/** A text a stranger chose, as it may stand in the log: one short line. */
export const forLog = (text: string, most = 120): string =>
  [...text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim()].slice(0, most).join('')
