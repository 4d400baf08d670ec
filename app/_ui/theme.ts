/** The cookie that keeps a chosen theme; without it the page follows the device. */
export const themeCookie = 'larder-theme'

export const themes = ['light', 'dark'] as const
export type Theme = (typeof themes)[number]

/** The theme a cookie's value names, or null when it names none. */
export const findTheme = (value: string | undefined): Theme | null => themes.find((theme) => theme === value) ?? null
