// The house rule of DESIGN: arrows point down only. Each floor may use itself and the floors below it.
const floors = [
  ['science'], ['greenhouse'], ['planning', 'records'], ['store', 'link', 'twin'], ['desk'], ['cli'],
];
const forbidden = floors.flatMap((names, level) => {
  const above = floors.slice(level + 1).flat();
  const beside = names.length > 1 ? names : [];
  return names.map((name) => ({
    name: `${name}-looks-down-only`, severity: 'error',
    comment: `src/${name} may use only its own floor and the floors below`,
    from: { path: `^src/${name}/` },
    to: { path: `^src/(${[...above, 'web'].join('|')})/` },
  })).concat(beside.length && names[0] === 'planning' ? [] : []);
}).filter((rule) => !rule.to.path.includes('()'));

module.exports = {
  forbidden: [
    ...forbidden,
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'web-sees-only-the-contract', severity: 'error',
      comment: 'pages know the types of the HTTP interface and nothing else of the house',
      from: { path: '^src/web/' }, to: { path: '^src/(?!web/)', pathNot: '^src/desk/contract\\.ts$' } },
    { name: 'pure-core', severity: 'error',
      comment: 'science, greenhouse, planning and records do no I/O: time, files, network and randomness are arguments',
      from: { path: '^src/(science|greenhouse|planning|records)/', pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['core'] } },
    { name: 'tests-are-not-imported', severity: 'error', from: { pathNot: '\\.test\\.tsx?$' }, to: { path: '\\.test\\.tsx?$' } },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' }, tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    includeOnly: '^src', exclude: '^src/science/scan/loops/assembly',
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.js', '.json'] },
  },
};
