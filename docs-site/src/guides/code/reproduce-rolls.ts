import { takeOff, tell } from 'swathe';

// What a stock room wants to know: which rolls these pieces open, and what is left on them.
const answer = takeOff.fromJson({
  needs: [
    {
      what: 'slab, 12 plies',
      material: 'plaster',
      width: { value: 15, unit: 'cm' },
      length: { value: 38, unit: 'cm' },
      pieces: 12,
      joins: false,
      wider: true,
    },
  ],
  stock: [
    { material: 'plaster', width: { value: 15, unit: 'cm' }, length: { value: 3, unit: 'm' }, onHand: 10 },
  ],
});
for (const { length, left } of answer.value.left)
  console.log(`a roll of ${tell(length, 'm')} m is opened; ${tell(left, 'cm').toFixed(0)} cm are left on it`);
console.log(`rolls: ${answer.value.rolls}; keep with it: ${answer.by}`);
