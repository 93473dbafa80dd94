import { dipWater, InputError, stripLength } from 'swathe';

// What cannot be is refused, all of it at once, each in the unit in which it was told.
try {
  stripLength.fromJson({ girth: { value: 165, unit: 'cm' }, advance: 38, turns: 6.5 });
} catch (error) {
  if (!(error instanceof InputError)) throw error;
  for (const { input, fault, got, possible } of error.faults)
    console.log(`${input}: ${fault}; got ${got}; possible: ${possible}`);
}

// What is possible but not advisable is answered, with a caution. Show level, words, reason and sources together.
const { cautions } = dipWater.fromJson({ material: 'plaster', water: { value: 40, unit: 'Cel' } });
for (const { level, says, because, sources } of cautions)
  console.log(`${level}: ${says}\n  because: ${because}\n  sources: ${sources.join(', ')}`);
