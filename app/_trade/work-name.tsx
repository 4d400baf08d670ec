type WorkNameProps = { title: string; quantity: number; note?: string }

/** A piece of work in a list: its design's title, how many of it, and whose or for whom under it. */
export const WorkName = ({ title, quantity, note }: WorkNameProps) => (
  <>
    <span className="title">{title}</span>
    {quantity > 1 && <> × {quantity}</>}
    {note && (
      <>
        <br />
        <small className="quiet">{note}</small>
      </>
    )}
  </>
)
