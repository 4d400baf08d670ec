import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  resolve: { alias: { 'server-only': fileURLToPath(new URL('./empty.ts', import.meta.url)) } },
  test: {
    include: ['tests/{unit,property,published,database}/**/*.test.ts'],
    testTimeout: 30_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
  },
})
