/** Why what a shop asks for a thread was not written. */
export type OfferRefused =
  | { kind: 'no-such-line'; lineId: string }
  /** It is gone, or of another line. */
  | { kind: 'no-such-thread'; threadId: string }
  | { kind: 'no-such-offer'; offerId: string }
  | { kind: 'changed-meanwhile' }
  /** The same put-ups in the same pack from the same shop are on record. */
  | { kind: 'offer-known'; offerId: string }
