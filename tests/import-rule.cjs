// Imports go one way (DEVELOPERS.md, "Who may import whom"). Run: npm run imports.
const above = {
  quantity: ['colour', 'place', 'thread', 'cloth', 'chart', 'stock', 'coverage', 'project', 'planning', 'settings'],
  colour: ['place', 'thread', 'cloth', 'chart', 'stock', 'coverage', 'project', 'planning', 'settings'],
  place: ['stock', 'coverage', 'project', 'planning', 'settings'],
  thread: ['stock', 'coverage', 'project', 'planning', 'settings'],
  cloth: ['stock', 'coverage', 'project', 'planning', 'settings'],
  chart: ['stock', 'coverage', 'project', 'planning', 'settings'],
  stock: ['coverage', 'project', 'planning', 'settings'],
  coverage: ['project', 'planning'],
}

module.exports = {
  forbidden: [
    {
      name: 'no-circles',
      severity: 'error',
      comment: 'Two files that import each other are one idea in two places.',
      from: { path: '^(app|lib|seed)/', pathNot: '^lib/db/generated/' },
      to: { circular: true, pathNot: '^lib/db/generated/' },
    },
    {
      name: 'lib-knows-no-app',
      severity: 'error',
      comment: 'Screens call lib; lib never calls screens, tests or the sample.',
      from: { path: '^lib/' },
      to: { path: '^(app|seed|tests)/' },
    },
    {
      name: 'pure-nouns-know-no-database',
      severity: 'error',
      comment: 'Rules must be testable with literals.',
      from: { path: '^lib/', pathNot: '^lib/db/' },
      to: { path: '^lib/db/' },
    },
    {
      name: 'pure-nouns-know-no-framework',
      severity: 'error',
      comment: 'No React, Next, Prisma, file system or network in the pure nouns.',
      from: { path: '^lib/', pathNot: '^lib/(db|solver)/' },
      to: {
        path: '(^|/)node_modules/(react|next|@prisma|libsql|@libsql|pg)/|^(node:)?(fs|http|https|net|child_process|worker_threads)$',
      },
    },
    {
      name: 'pure-nouns-know-no-solver',
      severity: 'error',
      comment: 'lib/solver is shell, like lib/db: it starts a thread.',
      from: { path: '^lib/', pathNot: '^lib/(db|solver)/' },
      to: { path: '^lib/solver/' },
    },
    {
      name: 'generated-client-only-in-db',
      severity: 'error',
      comment: 'lib/db is the only folder that imports the generated clients.',
      from: { pathNot: '^(lib/db|tests/database)/' },
      to: { path: '^lib/db/generated/' },
    },
    {
      name: 'design-system-knows-no-noun',
      severity: 'error',
      comment: 'app/_ui is plain: no noun of the trade, no database.',
      from: { path: '^app/_ui/' },
      to: { path: '^(lib|app/_trade|app/api|app/[a-z])', pathNot: '^app/_ui/' },
    },
    {
      name: 'drawings-know-no-database',
      severity: 'error',
      comment: 'app/_trade draws what it is handed.',
      from: { path: '^app/_trade/' },
      to: { path: '^lib/db/' },
    },
    {
      name: 'routes-keep-to-themselves',
      severity: 'error',
      comment: 'What two routes need lives in lib, _ui, _trade or _read.',
      from: { path: '^app/([a-z][^/]*)/' },
      to: { path: '^app/[a-z][^/]*/', pathNot: '^app/$1/' },
    },
    ...Object.entries(above).map(([noun, nouns]) => ({
      name: `${noun}-is-below`,
      severity: 'error',
      comment: 'planning, project → coverage → stock → thread, cloth, chart, place → colour → quantity.',
      from: { path: `^lib/${noun}/` },
      to: { path: `^lib/(${nouns.join('|')})/` },
    })),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^lib/db/generated/.*/internal' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default', 'types'] },
  },
}
