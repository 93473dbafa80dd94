/** A word of the trade or of physics, in this project's own plain words. */
export interface Word {
  readonly word: string;
  readonly says: string;
  /** Other words for the same, or spellings. */
  readonly also?: readonly string[];
  /** Ids of formulas and of splints and casts that it leads to. */
  readonly see?: readonly string[];
}

interface Part {
  readonly id: string;
  readonly title: string;
  readonly words: readonly Word[];
}

export const parts: readonly Part[] = [
  {
    id: 'splints-and-casts',
    title: 'Splints and casts',
    words: [
      {
        word: 'splint',
        says: 'A support that covers part of the girth and is held on by a bandage, so that a swelling limb has room.',
      },
      {
        word: 'slab',
        says: 'Plies of plaster or fibreglass laid on each other and on one side of a limb, as a splint.',
        also: ['backslab', 'half-cast'],
        see: ['coverage.slab-share', 'layers.slab-stiffness'],
      },
      {
        word: 'prefabricated slab',
        says: 'A slab that comes as one piece with its padding, cut from a roll to length.',
        see: ['segment.cut-length'],
      },
      {
        word: 'cast',
        says: 'A support that goes all the way round a limb.',
        also: ['circular cast', 'circumferential cast'],
        see: ['short-arm-cast', 'short-leg-cast'],
      },
      { word: 'volar', says: 'On the palm side of the hand or forearm.', see: ['volar-slab'] },
      {
        word: 'dorsal',
        says: 'On the back of the hand or forearm, or the top of the foot.',
        see: ['dorsal-slab'],
      },
      {
        word: 'posterior',
        says: 'Behind: along the back of the arm, thigh or calf and under the foot.',
        see: ['posterior-ankle-slab', 'posterior-knee-slab', 'long-arm-posterior-slab'],
      },
      {
        word: 'gutter',
        says: 'A slab bent round one edge of the forearm and hand like a rain gutter: the thumb’s edge is radial, the other ulnar.',
        see: ['radial-gutter-slab', 'ulnar-gutter-slab'],
      },
      {
        word: 'thumb spica',
        says: 'A splint or cast that takes in the thumb and leaves the fingers free.',
        see: ['thumb-spica-slab', 'thumb-spica-cast'],
      },
      {
        word: 'sugar-tong',
        says: 'One long slab that runs down one side of the limb, round a joint and up the other side.',
        also: ['U-slab, where it is open at the top'],
        see: ['forearm-sugar-tong'],
      },
      {
        word: 'double sugar-tong',
        says: 'Two such slabs, one round the elbow from the forearm and one from the upper arm.',
        see: ['double-sugar-tong-forearm', 'double-sugar-tong-arm'],
      },
      {
        word: 'coaptation slab',
        says: 'A U-shaped slab for the upper arm, from the armpit under the elbow and over the shoulder.',
        also: ['U-slab of the upper arm'],
        see: ['coaptation-slab'],
      },
      { word: 'stirrup', says: 'A slab under the heel and up both sides of the leg.', see: ['stirrup-slab'] },
      {
        word: 'posterior slab with stirrup',
        says: 'Both together on an ankle. Some texts call it by the name of a society.',
        see: ['posterior-ankle-slab', 'stirrup-slab'],
      },
      {
        word: 'short',
        says: 'Of an arm cast: it ends below the elbow. Of a leg cast: below the knee.',
        also: ['below-elbow', 'below-knee'],
        see: ['short-arm-cast', 'short-leg-cast'],
      },
      {
        word: 'long',
        says: 'Of an arm cast: it takes in the elbow. Of a leg cast: the knee.',
        also: ['above-elbow', 'above-knee'],
        see: ['long-arm-cast', 'long-leg-cast'],
      },
      {
        word: 'above-condylar forearm cast',
        says: 'A forearm cast carried up over the two bony points of the elbow, so that the forearm cannot turn. Elsewhere it bears the name of a city.',
      },
      {
        word: 'finger-inclusive cast',
        says: 'A hand cast that takes in the fingers to their tips. Elsewhere it bears the name of an animal or a tool.',
      },
      {
        word: 'bulky compression dressing',
        says: 'Many thick layers of padding with an elastic bandage over them. Elsewhere it bears the name of a surgeon.',
      },
      {
        word: 'bivalve',
        says: 'To cut a cast along both sides into two shells; to univalve is to cut it along one side.',
        also: ['split'],
      },
      { word: 'window', says: 'A piece cut out of a cast to see or dress what lies beneath.' },
      { word: 'walking heel', says: 'A block fixed under a leg cast to walk on.' },
    ],
  },
  {
    id: 'materials',
    title: 'Materials',
    words: [
      {
        word: 'plaster of Paris',
        says: 'A bandage that carries calcium sulfate hemihydrate; wetted, it sets to gypsum.',
        also: ['plaster', 'POP', 'gypsum bandage'],
        see: ['setting.hydration-heat', 'setting.set-times'],
      },
      {
        word: 'fibreglass tape',
        says: 'A knitted glass tape with a resin that water makes harden.',
        also: ['fiberglass', 'synthetic casting tape'],
        see: ['setting.set-times'],
      },
      {
        word: 'prepolymer',
        says: 'The half-made polyurethane resin in a casting tape; water finishes it, and that gives heat.',
        see: ['setting.heat-caution'],
      },
      {
        word: 'stockinette',
        says: 'A knitted tube drawn over the skin first, and folded back over the raw ends at last.',
        also: ['tubular bandage without elastic'],
        see: ['segment.cut-length'],
      },
      {
        word: 'padding',
        says: 'Soft rolled wadding between skin and plaster.',
        also: ['cast padding', 'undercast padding', 'wool'],
        see: ['layers.layers-wanted', 'coverage.layer-map'],
      },
      {
        word: 'elastic bandage',
        says: 'The stretchy bandage that holds a slab on.',
        also: ['crepe bandage'],
        see: ['pressure.under-bandage'],
      },
      {
        word: 'leno gauze',
        says: 'An open weave whose warp threads are twisted so that they do not slip; what plaster bandages are made on.',
      },
      {
        word: 'areal mass',
        says: 'Mass of a square metre of bandage, or of what it carries.',
        also: ['mass per area', 'grammage'],
        see: ['layers.cast-mass', 'layers.fabric-area'],
      },
      {
        word: 'accelerator',
        says: 'A salt that makes plaster set sooner. Residue of set plaster in the water does the same.',
        see: ['setting.set-times'],
      },
    ],
  },
  {
    id: 'work',
    title: 'The work',
    words: [
      {
        word: 'ply',
        says: 'One thickness of bandage in a slab. A slab of ten plies is ten lengths on each other.',
        also: ['layer of a slab'],
        see: ['layers.added-plies', 'layers.layers-wanted'],
      },
      {
        word: 'layer',
        says: 'One thickness of bandage as it lies on a limb. Where turns overlap, more lie on each other than were wound at once.',
        see: ['coverage.layer-map', 'layers.build-up'],
      },
      { word: 'turn', says: 'Once round the limb.', see: ['coverage.helix', 'coverage.strip-length'] },
      {
        word: 'pass',
        says: 'All turns from one end to the other; the way back is another pass.',
        see: ['coverage.layer-map'],
      },
      {
        word: 'spiral',
        says: 'Turns that climb the limb, each laid partly on the one before.',
        also: ['helix'],
        see: ['coverage.helix'],
      },
      {
        word: 'circular turns',
        says: 'Turns laid exactly on each other, at an end or over a place that wants more.',
        also: ['anchor turns', 'cuff'],
        see: ['coverage.layer-map'],
      },
      {
        word: 'figure of eight',
        says: 'A turn below a joint and one above it, which cross over the joint.',
        see: ['coverage.figure-of-eight'],
      },
      {
        word: 'overlap',
        says: 'The part of its width by which a turn lies on the one before. Half-width overlap lays two layers.',
        see: ['coverage.overlap-for', 'coverage.helix'],
      },
      {
        word: 'working time',
        says: 'From dipping until the bandage no longer takes to being worked.',
        see: ['setting.set-times'],
      },
      {
        word: 'setting time',
        says: 'From dipping until it holds its shape by itself.',
        also: ['set time'],
        see: ['setting.set-times'],
      },
      {
        word: 'moulding',
        says: 'Shaping wet plaster to the limb with the flat of the hand, never the fingertips.',
        also: ['molding'],
      },
      {
        word: 'lamination',
        says: 'Rubbing plies together so that they set as one; plies that slip on each other are much less stiff.',
        see: ['layers.slab-stiffness'],
      },
      {
        word: 'dip water',
        says: 'The water in which the bandage is wetted.',
        also: ['immersion water'],
        see: ['setting.dip-water'],
      },
      {
        word: 'stretch',
        says: 'How much longer a bandage lies than it comes off the roll.',
        see: ['roll.take-off', 'pressure.under-bandage'],
      },
      {
        word: 'edge cuff',
        says: 'The padded, rounded edge that stockinette and padding make when they are folded back.',
      },
      {
        word: 'second, firmer padding pass',
        says: 'Padding wound back down with more pull than it went up with.',
      },
    ],
  },
  {
    id: 'positions',
    title: 'Positions',
    words: [
      {
        word: 'position of function',
        says: 'The hand as if it held a glass: wrist a little back, knuckles bent, fingers slightly bent.',
        see: ['volar-slab'],
      },
      {
        word: 'intrinsic-plus',
        says: 'Knuckles well bent and fingers straight, which keeps the ligaments of the knuckles long.',
        also: ['protected position'],
        see: ['ulnar-gutter-slab'],
      },
      {
        word: 'flexed-ulnar wrist position',
        says: 'Wrist bent towards the palm and the little finger. Elsewhere it bears the name of a surgeon.',
      },
      { word: 'extension', says: 'Straightening, or at the wrist bending back.' },
      { word: 'flexion', says: 'Bending.' },
      { word: 'wrist extension', says: 'How far the wrist is bent back, from straight.' },
      {
        word: 'knuckle (MCP) flexion',
        says: 'How far the knuckles are bent, from straight: the metacarpophalangeal joints.',
        also: ['MCP flexion'],
      },
      {
        word: 'finger (IP) flexion',
        says: 'How far the joints within the fingers are bent: the interphalangeal joints.',
        also: ['IP flexion'],
      },
      { word: 'elbow flexion', says: 'How far the elbow is bent, from straight; a right angle is 90°.' },
      { word: 'knee flexion', says: 'How far the knee is bent, from straight.' },
      {
        word: 'ankle, foot to shin',
        says: 'The angle between sole and shin: 90° is a foot square to the leg.',
        also: ['neutral ankle'],
      },
      { word: 'proximal', says: 'Nearer the trunk.', also: ['towards the trunk'] },
      { word: 'distal', says: 'Farther from the trunk.' },
    ],
  },
  {
    id: 'places',
    title: 'Places on the limb',
    words: [
      { word: 'landmark', says: 'A place on the limb that a finger finds, from which lengths are measured.' },
      { word: 'thumb tip', says: 'The end of the thumb.' },
      {
        word: 'thumb distal joint',
        says: 'The one joint within the thumb that ends in the nail: the interphalangeal joint.',
      },
      {
        word: 'base of the thumb',
        says: 'Where the thumb’s long bone meets the wrist, felt at the edge of the palm’s heel.',
      },
      { word: 'fingertips', says: 'The ends of the fingers, hand flat.' },
      { word: 'little-finger distal joint', says: 'The last joint of the little finger.' },
      { word: 'index-finger distal joint', says: 'The last joint of the index finger.' },
      {
        word: 'mid distal phalanx of the ring and little fingers',
        says: 'Half-way along the last bones of these fingers: about the root of the nail.',
      },
      {
        word: 'mid distal phalanx of the thumb',
        says: 'Half-way along the thumb’s last bone: about the root of its nail.',
      },
      {
        word: 'knuckles',
        says: 'The joints between hand and fingers, seen when a fist is made.',
        also: ['metacarpophalangeal joints', 'MCP joints'],
      },
      {
        word: 'metacarpal heads',
        says: 'The far ends of the hand’s long bones: the knuckles, felt from the palm.',
      },
      { word: 'distal palmar crease', says: 'The crease of the palm nearer the fingers.', also: ['DPC'] },
      { word: 'proximal palmar crease', says: 'The crease of the palm nearer the wrist.' },
      { word: 'wrist crease', says: 'The fold at which the wrist bends, on the palm side.' },
      { word: 'ulnar styloid', says: 'The bony point on the little finger’s side of the wrist.' },
      { word: 'radial styloid', says: 'The bony point on the thumb’s side of the wrist.' },
      { word: 'mid forearm', says: 'Half-way from wrist to elbow.' },
      { word: 'proximal third of the forearm', says: 'A third of the way down the forearm from the elbow.' },
      { word: 'elbow crease', says: 'The fold in front of the elbow.', also: ['antecubital fossa'] },
      { word: 'olecranon', says: 'The point of the elbow.' },
      { word: 'mid upper arm', says: 'Half-way from shoulder to elbow.' },
      {
        word: 'deltoid insertion',
        says: 'Where the shoulder muscle ends, on the outside of the upper arm, about half-way down.',
      },
      { word: 'axilla', says: 'The armpit.' },
      { word: 'acromion', says: 'The bony roof of the shoulder.' },
      { word: 'toe tips', says: 'The ends of the toes.' },
      { word: 'base of the toes', says: 'Where the toes leave the foot.' },
      { word: 'metatarsal heads', says: 'The ball of the foot: the far ends of its long bones.' },
      { word: 'heel', says: 'The back of the heel bone.', also: ['calcaneus'] },
      { word: 'medial malleolus', says: 'The bony point on the inside of the ankle.' },
      { word: 'lateral malleolus', says: 'The bony point on the outside of the ankle.' },
      { word: 'mid calf', says: 'Half-way up the lower leg.' },
      { word: 'tibial tuberosity', says: 'The bony bump below the knee cap.', also: ['tibial tubercle'] },
      {
        word: 'fibular head',
        says: 'The bony knob on the outside below the knee. A nerve winds round beneath it, and nothing may press there.',
      },
      { word: 'patella', says: 'The knee cap.' },
      { word: 'proximal third of the thigh', says: 'A third of the way down the thigh from the hip.' },
      { word: 'greater trochanter', says: 'The bony point at the side of the hip.' },
      { word: 'gluteal fold', says: 'The fold under the buttock.' },
      { word: 'groin', says: 'The fold between thigh and belly.' },
    ],
  },
  {
    id: 'shape',
    title: 'Shape and coverage',
    words: [
      {
        word: 'girth',
        says: 'The tape measure’s reading once round the limb, lying flat and not pulled in.',
        also: ['circumference'],
        see: ['segment.girth-at'],
      },
      {
        word: 'taper',
        says: 'How a limb’s girth grows along it.',
        also: ['conicity'],
        see: ['coverage.geodesic-advance', 'coverage.edge-mismatch'],
      },
      {
        word: 'frustum',
        says: 'A cone with its tip cut off: the shape taken between two girths.',
        also: ['truncated cone'],
        see: ['segment.girth-profile'],
      },
      {
        word: 'advance',
        says: 'How far a turn climbs along the limb.',
        also: ['pitch'],
        see: ['coverage.strip-length'],
      },
      {
        word: 'lead angle',
        says: 'The angle between a turn and a circle round the limb.',
        also: ['helix angle'],
        see: ['coverage.helix'],
      },
      {
        word: 'geodesic',
        says: 'The path that a flat tape takes by itself, without a crease: a straight line on the unrolled surface.',
        see: ['coverage.geodesic-advance'],
      },
      { word: 'layer map', says: 'How many layers lie where along the limb.', see: ['coverage.layer-map'] },
      {
        word: 'station',
        says: 'A place along a limb at which the girth was taken.',
        see: ['segment.girth-profile'],
      },
      { word: 'take-off', says: 'The list of rolls that a list of pieces opens.', see: ['roll.take-off'] },
      {
        word: 'cutting plan',
        says: 'Which pieces are cut from which roll.',
        also: ['cutting stock'],
        see: ['roll.cutting-plan'],
      },
    ],
  },
  {
    id: 'stiffness',
    title: 'Layers and stiffness',
    words: [
      {
        word: 'elastic modulus',
        says: 'How much a material resists being stretched, whatever its shape.',
        also: ['modulus of elasticity'],
        see: ['layers.slab-stiffness'],
      },
      {
        word: 'second moment of area',
        says: 'How much a shape, whatever its material, resists bending: thickness counts three times over.',
        also: ['area moment of inertia'],
        see: ['layers.slab-stiffness', 'layers.curved-slab'],
      },
      {
        word: 'bending stiffness',
        says: 'Elastic modulus times second moment of area.',
        also: ['flexural rigidity'],
        see: ['layers.slab-stiffness'],
      },
      {
        word: 'standard deviation',
        says: 'How far single people, or measurements, commonly lie from the mean.',
        see: ['segment.expected-segment'],
      },
      {
        word: 'percentile',
        says: 'The value below which so many of a hundred people lie.',
        see: ['segment.expected-segment'],
      },
    ],
  },
  {
    id: 'heat',
    title: 'Heat and setting',
    words: [
      {
        word: 'hemihydrate',
        says: 'Calcium sulfate with half a molecule of water: the powder in a plaster bandage.',
        see: ['setting.hydration-heat'],
      },
      {
        word: 'dihydrate',
        says: 'Calcium sulfate with two molecules of water: gypsum, which is set plaster.',
        also: ['gypsum'],
        see: ['setting.hydration-heat'],
      },
      {
        word: 'heat of hydration',
        says: 'The heat that a gram of plaster gives off as it takes up its water.',
        see: ['setting.hydration-heat'],
      },
      {
        word: 'supersaturation',
        says: 'How much more is dissolved than the water can keep: what drives crystals to grow.',
        see: ['setting.supersaturation'],
      },
      { word: 'exothermic', says: 'Giving off heat.', see: ['setting.temperature-history'] },
      {
        word: 'conduction',
        says: 'Heat moving through a body at rest, from hot to cold.',
        see: ['setting.conduction'],
      },
      {
        word: 'perfusion',
        says: 'Blood flowing through tissue, which carries heat away.',
        see: ['setting.temperature-history'],
      },
      {
        word: 'damage integral',
        says: 'Heat and time added up by a burn law; 1 stands for a stated degree of burn. It is a figure for comparing, and no time to burn.',
        also: ['injury integral', 'omega'],
        see: ['setting.injury-integral'],
      },
      {
        word: 'equivalent minutes',
        says: 'Minutes at 43 °C that a burn law holds equal to a given history of warmth.',
        also: ['CEM43', 'thermal dose'],
        see: ['setting.equivalent-minutes'],
      },
      {
        word: 'basal layer',
        says: 'The lowest layer of the outer skin, where burn laws are reckoned.',
        see: ['setting.contact-time'],
      },
    ],
  },
  {
    id: 'care',
    title: 'Pressure and looking after',
    words: [
      {
        word: 'pressure under a bandage',
        says: 'What the bandage presses on the skin, in millimetres of mercury.',
        also: ['sub-bandage pressure', 'interface pressure'],
        see: ['pressure.under-bandage'],
      },
      {
        word: 'Laplace’s law',
        says: 'Tension in a wall bent round a limb presses inwards, the more the thinner the limb.',
        see: ['pressure.under-bandage'],
      },
      { word: 'prominence', says: 'A bone under thin skin, where more padding goes.' },
      {
        word: 'neurovascular check',
        says: 'Looking at circulation, movement and sensation beyond the splint or cast.',
        also: ['CMS check', 'CSM check'],
      },
      { word: 'capillary refill', says: 'How fast a nail bed that was pressed white turns pink again.' },
      {
        word: 'compartment syndrome',
        says: 'Pressure within a closed space of a limb that stops its blood. Pain out of proportion is its early sign, and it cannot wait.',
      },
      {
        word: 'pressure sore',
        says: 'Skin that dies where something hard or wrinkled pressed on it.',
        also: ['pressure injury'],
      },
      {
        word: 'cast index',
        says: 'Inner width of a cast seen from the side over that seen from the front, on X-ray: how well it was moulded.',
      },
      { word: 'gap index', says: 'The space between cast and skin on X-ray over the inner width.' },
    ],
  },
  {
    id: 'evidence',
    title: 'Words of this project',
    words: [
      {
        word: 'identity',
        says: 'A formula that follows from geometry or arithmetic alone, so that it holds without any measurement.',
      },
      { word: 'empirical', says: 'A formula that rests on measurements or published ranges.' },
      { word: 'check row', says: 'One value from outside the project that a formula is held against.' },
      {
        word: 'deviates',
        says: 'Of a check row: the formula does not give this value, and the row says why.',
      },
      { word: 'pinned', says: 'Of a constant: a check row fails when its last printed digit moves by one.' },
      { word: 'possible', says: 'Limits outside which an input is refused.' },
      {
        word: 'tested',
        says: 'Limits within which a source tested a formula; beyond them it answers and says so.',
      },
      {
        word: 'caution',
        says: 'What a person is told to heed, with what led to it. Where none fires, no trigger was met: that is no verdict.',
      },
      { word: 'revision', says: 'A number that rises when any result of a formula moves beyond rounding.' },
      {
        word: 'recheck',
        says: 'To recompute a kept answer from its own record, and see whether it still holds.',
      },
    ],
  },
];
