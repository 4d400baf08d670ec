import { sayParts } from '#language/say-parts'
import type { ChoiceCandidate } from '#lib/db/planning/together/read-choice'
import { Link } from '#ui/link'

type StartLinkProps = { designId: string; title: string; candidate: ChoiceCandidate | undefined }

/** To begin a chosen design: a wish is taken up where it stands, else a project is started. */
export function StartLink({ designId, title, candidate }: StartLinkProps) {
  const [wish] = candidate?.wishes ?? []
  return wish ? (
    <Link href={`/projects/${wish.projectId}`}>{sayParts('Plan{title}', { title: <span className="vh"> {title}</span> })}</Link>
  ) : (
    <Link href={`/projects/new?design=${designId}`}>
      {sayParts('Start{title}', { title: <span className="vh"> {title}</span> })}
    </Link>
  )
}
