/** The workbooks that come with Tarebook. */
export interface Sample {
  readonly title: string;
  readonly about: string;
  readonly address: string;
}

/** The first one is shown to somebody who opens the bench for the first time. */
export const SAMPLES: readonly Sample[] = [
  { title: 'wing', about: 'A complete half wing, with joints, prices and budget', address: 'samples/wing.xlsx' },
  { title: 'rib', about: 'One built-up rib, worked in full', address: 'samples/rib.xlsx' },
  {
    title: 'rivet-choice',
    about: 'Solid or blind rivets: weight, money, hours, strength',
    address: 'samples/rivet-choice.xlsx',
  },
  { title: 'buying', about: 'A shopping list, offcuts in stock, and cutting plans', address: 'samples/buying.xlsx' },
  { title: 'budget', about: 'Weights against the budget over the months of a build', address: 'samples/budget.xlsx' },
  {
    title: 'weighing',
    about: 'A finished airplane weighed and loaded; control surfaces balanced',
    address: 'samples/weighing.xlsx',
  },
  {
    title: 'self-check',
    about: 'Every example of every function, and one cell that counts what is right',
    address: 'samples/self-check.xlsx',
  },
];
