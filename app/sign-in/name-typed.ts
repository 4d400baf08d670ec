/** For a minute after a refusal the page remembers the name that was typed, so that only the password is typed again. */
export const nameTypedCookie = 'larder-name-typed'
