/** The cookie by which a device takes no slash for a way to Find: some speak to their device, or rest a hand on its keys (WCAG 2.1.4). */
export const slashCookie = 'larder-slash'

/** Whether a slash leads to Find on this device. @param cookies  as the page has them: "a=1; b=2" */
export const isSlashOn = (cookies: string): boolean => !cookies.split('; ').includes(`${slashCookie}=off`)
