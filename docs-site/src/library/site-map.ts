/** The pages beside the formulas: for the list of evidence, the guides and the search. */
export interface Entry {
  readonly path: string;
  readonly title: string;
  readonly says: string;
}

export const evidence: readonly Entry[] = [
  {
    path: '/sources/',
    title: 'Sources',
    says: 'Every source: what was read of it, what was not, which formulas rest on it.',
  },
  {
    path: '/checks/',
    title: 'Checks',
    says: 'Every value that a formula is held against, by kind, status and state.',
  },
  {
    path: '/disagreements/',
    title: 'Disagreements between sources',
    says: 'Where published values differ, with the one that is used and why.',
  },
  { path: '/constants/', title: 'Constants', says: 'Every number taken from a source, as printed.' },
  {
    path: '/tables/',
    title: 'Data tables',
    says: 'Tables behind the formulas: source, licence, how made, download.',
  },
  {
    path: '/benchmarks/',
    title: 'Benchmarks',
    says: 'How fast and how small, each beside a peer, as ratios of one run.',
  },
  { path: '/words/', title: 'Words', says: 'Words of the trade and of physics in plain language.' },
  {
    path: '/revisions/',
    title: 'Revisions',
    says: 'Which revision each formula is at, and what changed when.',
  },
  {
    path: '/unknown/',
    title: 'What this project does not know',
    says: 'Gaps, assumptions, values from memory, and what each formula gets wrong.',
  },
];

export const guides: readonly Entry[] = [
  {
    path: '/guides/embed/',
    title: 'Build it into clinical software',
    says: 'Units, basis, cautions, and how to show them.',
  },
  {
    path: '/guides/regulation/',
    title: 'What the law of decision support asks',
    says: 'How rules on clinical software shaped the design, and what an integrator must decide. Not legal advice.',
  },
  {
    path: '/guides/reproduce/',
    title: 'Reproduce a material estimate',
    says: 'Run a batch, keep the record, recheck it years later, cite it.',
  },
  {
    path: '/guides/teach/',
    title: 'Use it in a lesson',
    says: 'Links with filled-in cases, exercises with worked answers, print.',
  },
  {
    path: '/guides/add-a-formula/',
    title: 'Add a formula',
    says: 'What a formula must bring, tried out on a small one.',
  },
];
