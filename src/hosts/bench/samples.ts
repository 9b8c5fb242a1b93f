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
];
