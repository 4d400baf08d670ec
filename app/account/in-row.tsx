/** Words on a button of a row; whoever hears the page is told which row. Names of rows need not differ, so the forms themselves have none. */
export const InRow = ({ act, of }: { act: string; of: string }) => (
  <>
    {act} <span className="vh">{of}</span>
  </>
)
