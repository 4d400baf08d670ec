/** Whether the browser speaks HTTPS, to a server in front that is believed: the gate lets no other word of it through. */
export const isHttps = (headers: Headers): boolean => headers.get('x-forwarded-proto') === 'https'
