import { defineConfig } from 'prisma/config'

// For those who have the ordinary Prisma CLI at hand; the project itself applies migrations with migrate.mjs.
export default defineConfig({
  schema: 'schema.prisma',
  migrations: { path: 'sqlite/migrations' },
  datasource: { url: process.env.DATABASE_URL ?? 'file:../data/larder.db' },
})
