/** Which of the two screens asks: the answer is shown there. Apart from the schemas, since a page's scripts ask for it too. */
export const screens = ['together', 'cloth'] as const
export type ChoiceScreen = (typeof screens)[number]
export const addressOf: Record<ChoiceScreen, string> = { together: '/projects/together', cloth: '/cloth/choose' }
