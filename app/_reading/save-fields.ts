/** The fields of the form that saves a reading; designs, lists, new threads and new lines of thread by their index in it. */
export const saveFields = {
  takesDesign: (design: number): string => `take-${design}`,
  designTitle: (design: number): string => `title-${design}`,
  intoDesign: (design: number): string => `into-${design}`,
  called: (design: number): string => `called-${design}`,
  fills: (design: number): string => `fills-${design}`,
  takesList: (design: number, list: number): string => `list-${design}-${list}`,
  listName: (design: number, list: number): string => `name-${design}-${list}`,
  addThread: (index: number): string => `add-${index}`,
  strands: (line: number): string => `strands-${line}`,
  putUp: (line: number): string => `put-up-${line}`,
} as const
