/** Imports run one way: cli, hosts, pane → workbook, functions, xlsx → core; and through a folder's index or a named module. */
module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'core-imports-core-only', severity: 'error', from: { path: '^src/core/' }, to: { pathNot: ['^src/core/', 'decimal\\.js', '^node_modules/highs'] } },
    { name: 'functions-know-no-host', severity: 'error', from: { path: '^src/functions/' }, to: { path: '^src/(workbook|xlsx|hosts|pane|cli)/' } },
    { name: 'workbook-knows-no-host', severity: 'error', from: { path: '^src/workbook/' }, to: { path: '^src/(report|pictures|xlsx|hosts|pane|cli)/' } },
    { name: 'xlsx-knows-no-host', severity: 'error', from: { path: '^src/xlsx/' }, to: { path: '^src/(hosts|pane|cli)/' } },
    { name: 'pane-knows-no-host', severity: 'error', from: { path: '^src/pane/' }, to: { path: '^src/(xlsx|hosts|cli)/' } },
    { name: 'pictures-know-core-only', severity: 'error', from: { path: '^src/pictures/' }, to: { path: '^src/(?!pictures/|core/)' } },
    { name: 'report-knows-no-host', severity: 'error', from: { path: '^src/report/' }, to: { path: '^src/(xlsx|hosts|pane|cli)/' } },
    { name: 'pictures-through-their-index', severity: 'error', from: { path: '^src/(?!pictures/)' }, to: { path: '^src/pictures/', pathNot: '^src/pictures/index\\.ts$' } },
    { name: 'report-through-its-index', severity: 'error', from: { path: '^src/(?!report/)' }, to: { path: '^src/report/', pathNot: '^src/report/index\\.ts$' } },
    { name: 'hosts-know-no-cli', severity: 'error', from: { path: '^src/hosts/' }, to: { path: '^src/cli/' } },
    {
      name: 'functions-through-their-index',
      severity: 'error',
      from: { path: '^src/(workbook|report|xlsx|hosts|pane|cli)/' },
      to: { path: '^src/functions/', pathNot: '^src/functions/(index\\.ts|drawings/index\\.ts|reference/index\\.ts)$' },
    },
    {
      name: 'core-through-its-index',
      severity: 'error',
      from: { path: '^src/(?!core/)' },
      // Named modules of their own: the functions bundle carries the quick count, a parts list the words of the grain, neither the planner; the solver is a host's choice.
      to: { path: '^src/core/[^/]+/', pathNot: ['^src/core/[^/]+/index\\.ts$', '^src/core/stock/(lie|quick|highs-solver)\\.ts$'] },
    },
    {
      name: 'core-folders-through-their-index',
      severity: 'error',
      from: { path: '^src/core/([^/]+)/' },
      to: { path: '^src/core/[^/]+/', pathNot: ['^src/core/$1/', '^src/core/[^/]+/index\\.ts$'] },
    },
    { name: 'no-dev-packages', severity: 'error', from: { path: '^src/' }, to: { dependencyTypes: ['npm-dev'], pathNot: ['@types/', '@microsoft/office-js'] } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};
