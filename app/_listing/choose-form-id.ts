/** The form that the ticks of a list belong to. */
export const chooseFormId = 'choose'
