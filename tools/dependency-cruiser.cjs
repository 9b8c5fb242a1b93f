/**
 * Imports run one way, down this list of floors, and through a folder's index or a named module. Two folders on one
 * floor know nothing of each other, save where `MAY` says so.
 */
const FLOORS = [
  ['cli'],
  ['hosts', 'pane'],
  ['report', 'pictures'],
  ['project'],
  ['calculation', 'xlsx'],
  ['functions'],
  ['sheet', 'core'],
];

/** What may import its neighbour on the same floor. */
const MAY = {
  // A host shows the pane.
  hosts: ['pane'],
  // The report prints the pictures.
  report: ['pictures'],
  // A cell is read by the same words for a number and its unit.
  sheet: ['core'],
};

const upward = FLOORS.flatMap((rooms, floor) =>
  rooms.map((room) => {
    const above = FLOORS.slice(0, floor).flat();
    const beside = rooms.filter((other) => other !== room && !(MAY[room] ?? []).includes(other));
    return {
      name: `${room}-looks-down`,
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: { path: `^(src/(${[...above, ...beside, 'none'].join('|')})/|tools/|tests/)` },
    };
  }),
);

/** A folder that others enter by its index alone, or by a module that is named here with its reason. */
const throughIndex = (folder, others = []) => ({
  name: `${folder}-through-its-index`,
  severity: 'error',
  from: { path: `^src/(?!${folder}/)` },
  to: { path: `^src/${folder}/`, pathNot: [`^src/${folder}/index\\.tsx?$`, ...others] },
});

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    ...upward,
    // Its tests would count as the other's, too.
    { name: 'no-test-file-is-imported', severity: 'error', from: {}, to: { path: '\\.test\\.tsx?$' } },
    { name: 'tools-know-no-tests', severity: 'error', from: { path: '^tools/' }, to: { path: '^tests/(?!helpers/)' } },
    {
      name: 'core-takes-no-packages',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { pathNot: ['^src/core/', 'decimal\\.js', '^node_modules/highs'] },
    },
    {
      name: 'pictures-know-core-only',
      severity: 'error',
      from: { path: '^src/pictures/' },
      to: { path: '^src/(?!pictures/|core/)' },
    },
    throughIndex('pictures'),
    throughIndex('report'),
    // The functions bundle takes the cell's type and the namespace, and nothing else of the sheet.
    throughIndex('sheet', ['^src/sheet/cell\\.ts$', '^src/sheet/formula/(index|namespace)\\.ts$']),
    throughIndex('functions', ['^src/functions/(drawings|reference)/index\\.ts$']),
    {
      name: 'core-through-its-index',
      severity: 'error',
      from: { path: '^src/(?!core/)' },
      // Named modules of their own: the functions bundle carries the quick count, a parts list the words of the grain, neither the planner; the solver is a host's choice.
      to: {
        path: '^src/core/[^/]+/',
        pathNot: ['^src/core/[^/]+/index\\.ts$', '^src/core/stock/(lie|quick|highs-solver)\\.ts$'],
      },
    },
    {
      name: 'core-folders-through-their-index',
      severity: 'error',
      from: { path: '^src/core/([^/]+)/' },
      to: { path: '^src/core/[^/]+/', pathNot: ['^src/core/$1/', '^src/core/[^/]+/index\\.ts$'] },
    },
    {
      name: 'views-know-no-other-view',
      severity: 'error',
      from: { path: '^src/pane/views/([^/]+)/' },
      to: { path: '^src/pane/views/', pathNot: ['^src/pane/views/$1/', '^src/pane/views/[^/]+/index\\.tsx?$'] },
    },
    {
      name: 'no-dev-packages',
      severity: 'error',
      from: { path: '^src/' },
      to: { dependencyTypes: ['npm-dev'], pathNot: ['@types/', '@microsoft/office-js'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(dist|coverage|test-results)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};
