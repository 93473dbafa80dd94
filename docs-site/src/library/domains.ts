/** What each family of formulas is for, and what it is not for. */
export const domains = [
  {
    id: 'segment',
    title: 'Measuring the limb',
    use: 'Turns a few girths and a tape-measured length into lengths to cut, skin surface and volume.',
    not: 'It describes the limb that was measured. It says nothing about which limb needs what.',
  },
  {
    id: 'coverage',
    title: 'Covering the limb',
    use: 'Says how turns of bandage overlap, how many layers lie where, and how much bandage that takes.',
    not: 'It assumes turns that are laid as planned. It does not judge a bandage that has been laid.',
  },
  {
    id: 'layers',
    title: 'Layers',
    use: 'Says how many layers are usual, how thick and heavy they become, and how stiffness goes with their number and shape.',
    not: 'It cannot say whether a splint or cast is strong enough: no strength or stiffness of the materials could be read.',
  },
  {
    id: 'roll',
    title: 'Rolls',
    use: 'Takes stock: what is on a roll, how many rolls a list of pieces opens, what is left.',
    not: 'It is about material alone. It knows nothing of the person who will wear it.',
  },
  {
    id: 'setting',
    title: 'Water, heat and time',
    use: 'Lays out what is published about dip water and about how long setting takes.',
    not: 'It gives no skin temperature and no time to burn. No number here makes hot water acceptable.',
  },
  {
    id: 'pressure',
    title: 'Pressure under a bandage',
    use: 'Shows what raises and what lowers the pressure under an elastic bandage.',
    not: 'It does not measure. It cannot show that a limb is well supplied: only the limb can.',
  },
] as const;
