import { helix, InputError, noTrigger, tell } from 'swathe';

// Every quantity comes with its unit. A bare 21 would be refused: nobody could tell centimetres from inches.
const form = {
  girth: { value: 21, unit: 'cm' },
  width: { value: 3, unit: '[in_i]' },
  overlap: { value: 55, unit: '%' },
};

try {
  const answer = helix.fromJson(form);
  const { turnLength, least, most } = answer.value;

  // Rounded here, where it is shown, and nowhere before.
  console.log(
    `A turn takes ${tell(turnLength, 'cm').toFixed(1)} cm; ${least} to ${most} layers lie on each other`,
  );
  console.log(`By ${answer.by}; ${answer.domain === 'exact' ? 'geometry alone' : answer.domain}`);
  for (const { says, value, unit } of answer.steps)
    console.log(`  ${says}: ${value.toPrecision(4)} ${unit === '1' ? '' : unit}`.trimEnd());

  if (answer.cautions.length === 0) console.log(noTrigger);
  for (const { level, says, because } of answer.cautions) console.log(`${level}: ${says} (${because})`);
} catch (error) {
  if (!(error instanceof InputError)) throw error;
  for (const { input, got, possible } of error.faults)
    console.log(`${input}: got ${got}; possible: ${possible}`);
}
