import { readProject } from '../../../../_api/describe-project'
import { notFound } from '../../../../_api/problem'
import { getProject } from '../../../../_api/projects'
import { endpoint, serve } from '../../../../_api/serve'

const get = serve(getProject, async ({ path }) => (await readProject(path.projectId)) ?? notFound('project', path.projectId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
