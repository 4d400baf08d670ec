import { readProject } from '#api/describe-project'
import { notFound } from '#api/problem'
import { getProject } from '#api/projects'
import { endpoint, serve } from '#api/serve'

const get = serve(getProject, async ({ path }) => (await readProject(path.projectId)) ?? notFound('project', path.projectId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
