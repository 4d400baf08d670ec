/** Where the name last given on this device is kept. A page that has lost the network reads and writes it too, so it is no secret of the server's. */
export const nameCookie = 'larder-who'
export const nameCookieSeconds = 365 * 24 * 3600
